package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import linehold.controller.calibration.Key;
import linehold.rig.paper.WindowDesk;
import linehold.rig.paper.Worker;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.cli.ProveCommand;
import linehold.simulator.report.WindowJson;
import linehold.simulator.window.Window;
import linehold.simulator.window.WindowFinder;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;
import tools.jackson.databind.JsonNode;

/** What the window view is answered over a real connection, beside what the command says. */
class WindowRoutesTest {
    private static final String WINDOW = "\"switch-on-speed\":\"300 rpm\",\"switch-off-speed\":\"400 rpm\"";

    @TempDir
    private Path folder;

    private PageServer server;

    @BeforeEach
    void start() {
        Build build = BuildFile.loadNamed("demonstration");
        String source = new String(BuildFile.bytesNamed("demonstration"), StandardCharsets.UTF_8);
        serve(build, source);
    }

    private void serve(Build build, String source) {
        WindowDesk desk = new WindowDesk(build, new Worker("window"), new Worker("window-verdict"));
        server = new PageServer(
                PageSettings.loopback(0), Map.of(), null, List.of(new WindowRoutes(desk, source, folder)));
        server.start();
    }

    @AfterEach
    void stop() {
        server.close();
    }

    private HttpResponse<String> send(String path, String body) throws IOException, InterruptedException {
        String origin = "http://127.0.0.1:" + server.port();
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(origin + path));
        if (body != null) {
            request.header("Origin", origin).POST(HttpRequest.BodyPublishers.ofString(body));
        }
        return HttpClient.newHttpClient().send(request.build(), HttpResponse.BodyHandlers.ofString());
    }

    @Test
    void shouldGiveTheVerdictOfTheProveCommandForAChangedWindow() throws IOException, InterruptedException {
        HttpResponse<String> answer = send("/api/window/verdict", "{" + WINDOW + ",\"speed-alone\":true}");
        int status = new CommandLine(new ProveCommand())
                .execute(
                        "--switch-on",
                        "300 rpm",
                        "--switch-off",
                        "400 rpm",
                        "--speed-alone",
                        "--out",
                        folder.toString());
        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.body()).isEqualTo(Files.readString(folder.resolve("verdict.json")));
        assertThat(status).as("a window so low is lost").isEqualTo(1);
        assertThat(answer.body()).contains("\"verdict\" : \"lost\"");
    }

    @Test
    void shouldTellABadSettingInOneSentence() throws IOException, InterruptedException {
        HttpResponse<String> crossed =
                send("/api/window/verdict", "{\"switch-on-speed\":\"900 rpm\",\"switch-off-speed\":\"900 rpm\"}");
        assertThat(crossed.statusCode()).isEqualTo(422);
        assertThat(crossed.body())
                .contains("switch-off-speed (900")
                .contains("must exceed by at least")
                .contains("switch-on-speed");
        HttpResponse<String> none = send("/api/window/verdict", "{\"switch-on-speed\":\"900 bar\"}");
        assertThat(none.statusCode()).isEqualTo(422);
        assertThat(none.body()).contains("found '900 bar', expected a number and its unit");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "[]", "{", "{\"switch-on-speed\":700}", "null"})
    void shouldRefuseWhatThePageNeverSends(String body) throws IOException, InterruptedException {
        assertThat(send("/api/window/verdict", body).statusCode()).isEqualTo(400);
    }

    @Test
    void shouldSaveANewBuildWithItsProofAndNeverOverwrite() throws IOException, InterruptedException {
        String body =
                "{\"switch-on-speed\":\"770 rpm\",\"minimum-run-time\":\"2.5 s\",\"help-pressure\":\"4.2 bar\",\"name\":\"wider\"}";
        HttpResponse<String> saved = send("/api/window/save", body);
        assertThat(saved.statusCode()).as(saved.body()).isEqualTo(200);
        Path file = folder.resolve("wider.yaml");
        Build build = BuildFile.load(file);
        assertThat(build.name()).isEqualTo("wider");
        assertThat(build.calibration().get(Key.SWITCH_ON_SPEED)).isCloseTo(770 * Math.PI / 30, within(1e-9));
        assertThat(build.calibration().get(Key.SWITCH_OFF_SPEED)).isCloseTo(900 * Math.PI / 30, within(1e-9));
        assertThat(build.calibration().get(Key.MINIMUM_RUN_TIME)).isEqualTo(2.5);
        assertThat(saved.body()).contains(build.sha256());
        String proof = Files.readString(folder.resolve("wider.verdict.json"));
        assertThat(proof).contains(build.sha256()).contains("\"verdict\" : \"held\"");

        String before = Files.readString(file);
        HttpResponse<String> again = send("/api/window/save", body.replace("770", "780"));
        assertThat(again.statusCode()).isEqualTo(422);
        assertThat(again.body()).contains("nothing is overwritten");
        assertThat(Files.readString(file)).isEqualTo(before);
    }

    @ParameterizedTest
    @ValueSource(strings = {"demonstration", "weak", "", "../out", "a/b", "Wide", "x.yaml"})
    void shouldRefuseANameThatIsTakenOrNone(String name) throws IOException, InterruptedException {
        HttpResponse<String> answer = send("/api/window/save", "{" + WINDOW + ",\"name\":\"" + name + "\"}");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body()).contains("name: found '" + name + "'");
        try (var files = Files.list(folder)) {
            assertThat(files).isEmpty();
        }
    }

    @Test
    void shouldLetNoTypedValueWriteFurtherLinesIntoTheFile() throws IOException, InterruptedException {
        String body = "{\"switch-on-speed\":\"770 rpm\\n  help-pressure: 0 bar\",\"name\":\"sly\"}";
        assertThat(send("/api/window/save", body).statusCode()).isEqualTo(422);
        try (var files = Files.list(folder)) {
            assertThat(files).isEmpty();
        }
    }

    @Test
    void shouldTellWhatCanBeMoved() throws IOException, InterruptedException {
        assertThat(send("/api/window/handles", null).body())
                .contains("switch-on-speed", "switch-off-speed", "minimum-run-time", "help-pressure");
    }

    /** The map is the same in all units, the words are not. */
    @Test
    @Timeout(600)
    void shouldGiveTheWindowOfTheFinderWithItsWordsInTheUnitsOfThePage() throws IOException, InterruptedException {
        server.close();
        String source = new String(BuildFile.bytesNamed("demonstration"), StandardCharsets.UTF_8)
                .replaceFirst("oil-temperatures: \\[.*]", "oil-temperatures: [120 °C]");
        Build build = BuildFile.parse("hot.yaml", source.getBytes(StandardCharsets.UTF_8));
        serve(build, source);
        JsonNode first =
                PageServer.JSON.readTree(send("/api/window?units=metric", null).body());
        assertThat(first.get("ready").booleanValue()).isFalse();
        assertThat(first.get("state").get("steps").intValue()).isPositive();
        JsonNode metric = found("metric");
        Window expected = new WindowFinder(build, List.of(120.0), (stage, steps) -> () -> {}).find();
        assertThat(metric.get("window")).isEqualTo(PageServer.JSON.readTree(WindowJson.toBytes(expected)));
        assertThat(metric.get("words").toString()).contains("875 rpm", " bar").doesNotContain("psi");

        JsonNode half =
                PageServer.JSON.readTree(send("/api/window?units=us", null).body());
        assertThat(half.get("ready").booleanValue()).isFalse();
        assertThat(half.get("window"))
                .as("the map stays while the words are made")
                .isNotNull();
        assertThat(half.has("words")).isFalse();
        JsonNode us = found("us");
        assertThat(us.get("words").toString()).contains("psi", "875 rpm").doesNotContain(" bar");
        assertThat(us.get("window").get("pair").toString()).contains("248 °F").doesNotContain("°C");
        assertThat(us.get("window").get("maps")).isEqualTo(metric.get("window").get("maps"));
    }

    private JsonNode found(String units) throws IOException, InterruptedException {
        while (true) {
            JsonNode answer = PageServer.JSON.readTree(
                    send("/api/window?units=" + units, null).body());
            assertThat(answer.get("problem").isNull()).as(answer.toString()).isTrue();
            if (answer.get("ready").booleanValue()) {
                return answer;
            }
            Thread.sleep(100);
        }
    }
}
