package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.List;
import java.util.Map;
import linehold.rig.paper.DriveBook;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.OilIgnored;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.RunVerdict;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** The Drives view's answers, over a real connection. */
class DriveRoutesTest {
    private static final Build BUILD = BuildFile.loadNamed("demonstration");
    private static final HttpClient CLIENT = HttpClient.newHttpClient();
    private static PageServer server;

    @BeforeAll
    static void start() {
        server = new PageServer(
                PageSettings.loopback(0), Map.of(), null, List.of(new DriveRoutes(new DriveBook(BUILD))));
        server.start();
    }

    @AfterAll
    static void stop() {
        server.close();
    }

    private static HttpResponse<String> get(String path) throws Exception {
        URI uri = URI.create("http://127.0.0.1:" + server.port() + path);
        return CLIENT.send(HttpRequest.newBuilder(uri).build(), HttpResponse.BodyHandlers.ofString());
    }

    @Test
    void shouldTellTheVerdictOfTheProveCommand() throws Exception {
        JsonNode drives = PageServer.JSON.readTree(get("/api/drives").body()).get("drives");
        while (!drives.get(0).get("runs").isArray()) {
            Thread.sleep(100);
            drives = PageServer.JSON.readTree(get("/api/drives").body()).get("drives");
        }
        List<OilIgnored> all =
                BuiltInDrives.all(BUILD).stream().map(OilIgnored::new).toList();
        List<RunVerdict> expected = new Prover(BUILD, 1)
                .prove(Prover.grid(all.subList(0, 1), BUILD.limits().oilTemperaturesC()), () -> {})
                .runs();

        int next = 0;
        for (JsonNode run : drives.get(0).get("runs")) {
            RunVerdict one = expected.get(next++);
            assertThat(drives.get(0).get("name").asString()).isEqualTo(one.drive());
            assertThat(run.get("held").asBoolean()).isEqualTo(one.held());
            assertThat(run.get("weakest").asString()).isEqualTo(one.weakest());
            assertThat(run.get("oilC").asDouble()).isEqualTo(one.oilC());
        }
        assertThat(next).isEqualTo(expected.size());
    }
}
