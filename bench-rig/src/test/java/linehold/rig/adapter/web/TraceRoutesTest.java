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
import java.util.concurrent.atomic.AtomicLong;
import linehold.controller.calibration.Key;
import linehold.rig.paper.BuildShelf;
import linehold.rig.paper.DriveBook;
import linehold.rig.paper.TraceBook;
import linehold.rig.paper.Worker;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.Drive;
import linehold.simulator.drive.LogDrive;
import linehold.simulator.drive.OilIgnored;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.RunVerdict;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** Whole runs, asked part by part over a real connection. */
class TraceRoutesTest {
    private static final Build BUILD = BuildFile.loadNamed("demonstration");
    private static final HttpClient CLIENT = HttpClient.newHttpClient();
    private static final double OIL_C = 60;

    @TempDir
    private Path out;

    private final AtomicLong lateNs = new AtomicLong();
    private final DriveBook drives = new DriveBook(BUILD);
    private PageServer server;

    @BeforeEach
    void start() {
        BuildShelf builds = new BuildShelf(BUILD, out);
        TraceBook traces = new TraceBook(
                drives,
                builds,
                List.of(new Worker("run-1"), new Worker("run-2")),
                () -> System.nanoTime() + lateNs.get());
        server = new PageServer(PageSettings.loopback(0), Map.of(), null, List.of(new TraceRoutes(builds, traces)));
        server.start();
    }

    @AfterEach
    void stop() {
        server.close();
        drives.close();
    }

    private HttpResponse<String> get(String path) throws IOException, InterruptedException {
        URI uri = URI.create("http://127.0.0.1:" + server.port() + path);
        return CLIENT.send(HttpRequest.newBuilder(uri).build(), HttpResponse.BodyHandlers.ofString());
    }

    private HttpResponse<String> ended(String path) throws IOException, InterruptedException {
        HttpResponse<String> answer = get(path);
        while (answer.statusCode() == 202) {
            Thread.sleep(20);
            answer = get(path);
        }
        return answer;
    }

    private JsonNode run(String drive, String more) throws IOException, InterruptedException {
        HttpResponse<String> answer = ended(path(drive, more));
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        return PageServer.JSON.readTree(answer.body()).get("run");
    }

    private static String path(String drive, String more) {
        return "/api/drives/" + drive + "/trace?oil=" + OIL_C + "&" + more;
    }

    private static Drive drive(String name) {
        return BuiltInDrives.all(BUILD).stream()
                .filter(one -> one.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void shouldKeepTheExtremesWhenAWholeDriveIsDrawnWithFewPoints() throws Exception {
        double[] extremes = {Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY};
        new Prover(BUILD, 1).run(new OilIgnored(drive("stop-and-go")), OIL_C, moment -> {
            extremes[0] = Math.min(extremes[0], (float) moment.lowestPressurePa);
            extremes[1] = Math.max(extremes[1], (float) moment.lowestPressurePa);
            return true;
        });

        JsonNode part = run("stop-and-go", "from=-1e6&to=1e6&points=7").get("part");

        assertThat(part.get("t").size()).isBetween(4, 7);
        assertThat(part.get("tickCount").asInt()).isGreaterThan(1);
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < part.get("t").size(); i++) {
            low = Math.min(low, part.get("pLow").get(i).asDouble());
            high = Math.max(high, part.get("pHigh").get(i).asDouble());
        }
        assertThat((float) low).isEqualTo((float) extremes[0]);
        assertThat((float) high).isEqualTo((float) extremes[1]);
    }

    @Test
    void shouldTellTheVerdictOfTheProveCommandInEitherUnits() throws Exception {
        Drive drive = new OilIgnored(drive("panic-stop-dry-slow"));
        for (String build : List.of("demonstration", "weak")) {
            for (boolean us : List.of(false, true)) {
                Build proved = BuildFile.loadNamed(build).withUnits(us ? UnitSystem.US : UnitSystem.METRIC);
                RunVerdict expected = new Prover(proved, 1)
                        .proveWithoutCloseUps(Prover.grid(List.of(drive), List.of(OIL_C)))
                        .runs()
                        .get(0);

                JsonNode run = run(
                        drive.name(),
                        "from=0&to=1&points=10&units=" + (us ? "us" : "metric") + "&build="
                                + (build.equals(BUILD.name()) ? "" : build));

                assertThat(run.get("build").asString()).isEqualTo(build);
                assertThat(run.get("held").asBoolean()).isEqualTo(expected.held());
                assertThat(run.get("lowestPa").asDouble())
                        .isEqualTo(expected.lowPoint().pressurePa());
                assertThat(run.get("lowestAtS").asDouble())
                        .isEqualTo(expected.lowPoint().atS());
                assertThat(run.get("words").get(0).asString())
                        .isEqualTo(
                                expected.held()
                                        ? expected.weakest()
                                        : expected.losses().get(0).criterion().title() + ": "
                                                + expected.losses().get(0).cause());
                assertThat(run.get("words").toString()).contains(us ? " psi" : " bar");
            }
        }
    }

    @Test
    void shouldShowEverySingleTickAndWhatSwitchedThere() throws Exception {
        JsonNode whole = run("stop-and-go", "from=-1e6&to=1e6&points=4000");
        double changeS = whole.get("part").get("stateAfterS").asDouble();

        JsonNode part = run("stop-and-go", "from=" + (changeS - 0.1) + "&to=" + (changeS + 0.1) + "&points=1000")
                .get("part");

        assertThat(part.get("tickCount").asInt()).isEqualTo(1);
        assertThat(part.get("t").size()).isBetween(40, 41);
        assertThat(part.get("t").get(1).asDouble() - part.get("t").get(0).asDouble())
                .isCloseTo(BUILD.calibration().get(Key.CONTROL_PERIOD), within(1e-9));
        JsonNode lanes = part.get("lanes");
        boolean changes = false;
        for (int i = 1; i < lanes.get("t").size(); i++) {
            boolean now = lanes.get("state").get(i).asInt()
                    != lanes.get("state").get(i - 1).asInt();
            changes |= now && Math.abs(lanes.get("t").get(i).asDouble() - changeS) < 1e-9;
            assertThat(Integer.bitCount(lanes.get("state").get(i).asInt())).isEqualTo(1);
        }
        assertThat(changes).isTrue();
    }

    @Test
    void shouldOfferTheBuildsThatShipAndThoseInTheFolderButNoOtherFile() throws Exception {
        String text = new String(BuildFile.bytesNamed("demonstration"), StandardCharsets.UTF_8);
        Files.writeString(
                out.resolve("later.yaml"), text.replaceFirst("switch-on-speed: *\\S+", "switch-on-speed: 650"));
        Files.writeString(out.resolve("broken.yaml"), "name: [");
        Files.writeString(out.resolve("log.map.yaml"), "columns: {}");

        JsonNode builds = PageServer.JSON.readTree(get("/api/builds").body());
        assertThat(builds.findValuesAsString("name"))
                .containsExactly("rule-of-thumb", "weak", "broken.yaml", "later.yaml");
        assertThat(run("parking", "from=0&to=1&points=10&build=later.yaml")
                        .get("words")
                        .size())
                .isPositive();
        HttpResponse<String> broken = get(path("parking", "from=0&to=1&points=10&build=broken.yaml"));
        assertThat(broken.statusCode()).isEqualTo(422);
        assertThat(broken.body()).contains("broken.yaml");
        for (String other : List.of("..%2Fpom.xml", "%2Fetc%2Fpasswd", "demonstration.yaml", "nobody")) {
            assertThat(get(path("parking", "from=0&to=1&points=10&build=" + other))
                            .statusCode())
                    .as(other)
                    .isEqualTo(422);
        }
    }

    @Test
    void shouldAnswerOthersWhileALongRunIsUnderWayAndEndItWhenNobodyWaits() throws Exception {
        EndlessDrive endless = new EndlessDrive();
        drives.put("endless.csv", endless);
        String path = path("endless.csv", "from=0&to=1&points=10");
        double reachedS = 0;
        while (reachedS == 0) {
            HttpResponse<String> answer = get(path);
            assertThat(answer.statusCode()).isEqualTo(202);
            reachedS = PageServer.JSON.readTree(answer.body()).get("reachedS").asDouble();
        }
        assertThat(run("parking", "from=0&to=1&points=10").get("held").asBoolean())
                .isTrue();
        assertThat(endless.closed()).isFalse();

        lateNs.addAndGet(10_000_000_000L);
        while (!endless.closed()) {
            Thread.sleep(5);
        }
    }

    @Test
    void shouldEndARunUnderWayWhenTheServerCloses() throws Exception {
        EndlessDrive endless = new EndlessDrive();
        drives.put("endless.csv", endless);
        get(path("endless.csv", "from=0&to=1&points=10"));
        while (!endless.opened()) {
            Thread.sleep(5);
        }
        server.close();
        while (!endless.closed()) {
            Thread.sleep(5);
        }
    }

    @Test
    void shouldTellOfABadRowInOneSentence() throws Exception {
        Path log = out.resolve("bad.csv");
        Files.writeString(log, "time_s,motor_speed_rpm\n0,0\n1,0\n2,0\n3,x\n4,0\n");
        drives.put("bad.csv", LogDrive.of(log, BUILD));
        HttpResponse<String> answer = ended(path("bad.csv", "from=0&to=1&points=10"));
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body()).contains("bad.csv").contains("5");
    }

    /** Road speed becomes shaft speed by the gears of the build that drives. */
    @Test
    void shouldReadALogInTheCarOfTheBuildThatIsLaidOverIt() throws Exception {
        Path log = out.resolve("road.csv");
        StringBuilder rows = new StringBuilder("time_s,road_speed_km_h\n");
        for (int i = 0; i <= 60; i++) {
            rows.append(i).append(',').append(Math.min(i, 60 - i)).append('\n');
        }
        Files.writeString(log, rows);
        String text = new String(BuildFile.bytesNamed("demonstration"), StandardCharsets.UTF_8);
        Files.writeString(out.resolve("short.yaml"), text.replaceFirst("final-ratio: 3.5", "final-ratio: 4.5"));
        Build other = BuildFile.load(out.resolve("short.yaml"));
        drives.put("road.csv", LogDrive.of(log, BUILD));
        double[] highest = new double[2];
        new Prover(BUILD, 1).run(LogDrive.of(log, BUILD), OIL_C, moment -> {
            highest[0] = Math.max(highest[0], moment.shaftRadPerS);
            return true;
        });
        new Prover(other, 1).run(LogDrive.of(log, other), OIL_C, moment -> {
            highest[1] = Math.max(highest[1], moment.shaftRadPerS);
            return true;
        });
        assertThat(highest[1]).isNotCloseTo(highest[0], within(1.0));

        assertThat(highest(run("road.csv", "from=0&to=99&points=9"))).isEqualTo((float) highest[0]);
        assertThat(highest(run("road.csv", "from=0&to=99&points=9&build=short.yaml")))
                .isEqualTo((float) highest[1]);
    }

    private static float highest(JsonNode run) {
        float highest = 0;
        for (JsonNode value : run.get("part").get("nHigh")) {
            highest = Math.max(highest, (float) value.asDouble());
        }
        return highest;
    }

    @Test
    void shouldRefuseWhatCannotBeDrawnWithOneSentence() throws Exception {
        for (String path : List.of(
                "/api/drives/none/trace?from=0&to=1&points=10&oil=60",
                "/api/drives/..%5Cx/trace?from=0&to=1&points=10&oil=60",
                "/api/drives/stop-and-go/trace?from=5&to=1&points=10&oil=60",
                "/api/drives/stop-and-go/trace?from=0&to=1&points=10000000&oil=60",
                "/api/drives/stop-and-go/trace?from=0&to=1&points=ten&oil=60",
                "/api/drives/stop-and-go/trace?from=0&to=1&points=10&oil=61.5",
                "/api/drives/stop-and-go/trace")) {
            assertThat(get(path).statusCode()).as(path).isBetween(400, 499);
        }
    }
}
