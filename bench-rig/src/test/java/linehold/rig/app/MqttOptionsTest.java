package linehold.rig.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MqttOptionsTest {
    @TempDir
    private Path folder;

    private String said;

    private int rig(String... more) {
        List<String> arguments = new ArrayList<>(List.of("rig", "--for", "1 s", "--no-record", "--no-page"));
        arguments.addAll(List.of("--record", folder.toString()));
        arguments.addAll(List.of(more));
        PrintStream out = System.out;
        PrintStream err = System.err;
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (PrintStream both = new PrintStream(bytes, true, StandardCharsets.UTF_8)) {
            System.setOut(both);
            System.setErr(both);
            return Main.commandLine().execute(arguments.toArray(new String[0]));
        } finally {
            System.setOut(out);
            System.setErr(err);
            said = bytes.toString(StandardCharsets.UTF_8);
        }
    }

    @Test
    void shouldRefuseInOneSentenceBeforeTheFirstTick() {
        assertThat(rig("--mqtt", "http://broker")).isEqualTo(Main.BAD_INPUT);
        assertThat(said)
                .isEqualToIgnoringNewLines(
                        "linehold: --mqtt: found 'http://broker', expected tcp://host:1883 or ssl://host:8883");
        assertThat(rig("--mqtt-user", "me")).isEqualTo(Main.BAD_INPUT);
        assertThat(said)
                .startsWith("linehold: --mqtt: found options of telemetry without it")
                .hasLineCount(1);
    }

    @Test
    void shouldRunWithoutABrokerAndNeverTellThePassword() throws Exception {
        Path file = Files.writeString(folder.resolve("password"), "hush-hush\n");
        // Port 1 is assigned (tcpmux, IANA) and nobody listens there.
        assertThat(rig("--mqtt", "tcp://127.0.0.1:1", "--mqtt-user", "me", "--mqtt-password-file", file.toString()))
                .isZero();
        assertThat(said)
                .contains("rig: telemetry has no broker", " ticks; lateness")
                .doesNotContain("hush-hush");
    }
}
