package linehold.rig.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A rig as a person starts it at a terminal. */
@Timeout(120)
class RigCommandTest {
    @TempDir
    private Path folder;

    @Test
    void shouldKeepThePageOfADriveThatHasEndedUntilItIsToldToStop() throws Exception {
        Files.writeString(folder.resolve("short.csv"), "time_s,motor_speed_rpm,key\n0,0,1\n0.5,0,1\n1,0,1\n");
        Process rig = new ProcessBuilder(List.of(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Xmx200m",
                        "-Dpicocli.ansi=true",
                        "-cp",
                        System.getProperty("java.class.path"),
                        "linehold.rig.app.Main",
                        "rig",
                        "--drive",
                        "short.csv",
                        "--port",
                        "0"))
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .start();
        try (BufferedReader out =
                new BufferedReader(new InputStreamReader(rig.getInputStream(), StandardCharsets.UTF_8))) {
            String address = null;
            String line = out.readLine();
            while (line != null && !line.contains("the page stays until Ctrl-C")) {
                if (line.contains("page: http")) {
                    address = line.substring(line.indexOf("http"));
                }
                line = out.readLine();
            }
            assertThat(line).as("the rig stays").isNotNull();
            assertThat(address).as("the page's address").isNotNull();

            HttpResponse<String> facts = HttpClient.newHttpClient()
                    .send(
                            HttpRequest.newBuilder(URI.create(address + "api/facts"))
                                    .build(),
                            HttpResponse.BodyHandlers.ofString());
            assertThat(facts.statusCode()).isEqualTo(200);
        } finally {
            rig.destroy();
            assertThat(rig.waitFor(30, TimeUnit.SECONDS)).as("ends when told").isTrue();
        }
    }
}
