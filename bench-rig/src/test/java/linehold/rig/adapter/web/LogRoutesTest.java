package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.stream.Stream;
import linehold.rig.paper.DriveBook;
import linehold.rig.paper.OwnLogs;
import linehold.rig.paper.RecordingShelf;
import linehold.rig.paper.Worker;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.cli.ProveCommand;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import tools.jackson.databind.JsonNode;

/** Own logs over a real connection: taken in, mapped, proved like the command does, removed. */
class LogRoutesTest {
    private static final Build BUILD = BuildFile.loadNamed("demonstration");

    @TempDir
    private Path folder;

    private PageServer server;
    private PageClient page;

    /** One recording that is a log of {@link LogTexts}, and one that cannot be read. */
    private static final RecordingShelf SHELF = LogTexts.shelf(
            new RecordingShelf.Line(2, null, null, null, null, null, "000002.lhrec: cannot be read"),
            new RecordingShelf.Line(1, "2026-01-02 03:04:05", 30.0, 6000L, "simulated", "in order", null));

    private Path logs() {
        return folder.resolve("logs");
    }

    @BeforeEach
    void start() {
        DriveBook book = new DriveBook(BUILD, List.of(), new Worker("verdicts"), new Worker("drive-reading"));
        OwnLogs logs = new OwnLogs(book, logs(), SHELF);
        server = new PageServer(
                PageSettings.loopback(0), Map.of(), null, List.of(new DriveRoutes(book), new LogRoutes(logs)));
        server.start();
        page = new PageClient(server);
    }

    @AfterEach
    void stop() {
        server.close();
    }

    private JsonNode drive(String name) {
        for (JsonNode one : page.get("/api/drives").body().get("drives")) {
            if (one.get("name").asString().equals(name)) {
                return one;
            }
        }
        throw new AssertionError("no drive " + name);
    }

    private JsonNode await(String name, Predicate<JsonNode> reached) throws InterruptedException {
        long endNs = System.nanoTime() + Duration.ofSeconds(120).toNanos();
        JsonNode drive = drive(name);
        while (!reached.test(drive)) {
            assertThat(System.nanoTime()).as("%s", drive).isLessThan(endNs);
            Thread.sleep(50);
            drive = drive(name);
        }
        return drive;
    }

    private JsonNode proved(String name) throws InterruptedException {
        return await(
                name,
                drive -> drive.get("runs").isArray() || !drive.get("problem").isNull());
    }

    private List<String> files() throws IOException {
        try (Stream<Path> files = Files.list(logs())) {
            return files.map(file -> file.getFileName().toString()).sorted().toList();
        }
    }

    /** What the command says of a log, in its verdict.json. */
    private JsonNode command(String file) throws IOException {
        Path out = folder.resolve("command");
        PrintStream terminal = System.out;
        try {
            System.setOut(new PrintStream(PrintStream.nullOutputStream(), true, StandardCharsets.UTF_8));
            new CommandLine(new ProveCommand()).execute(logs().resolve(file).toString(), "--out", out.toString());
        } finally {
            System.setOut(terminal);
        }
        return PageServer.JSON.readTree(out.resolve("verdict.json").toFile()).get("runs");
    }

    private void requireVerdictOfTheCommand(String file) throws Exception {
        JsonNode runs = proved(file).get("runs");
        JsonNode expected = command(file);
        assertThat(runs.size()).isEqualTo(expected.size());
        for (int i = 0; i < expected.size(); i++) {
            JsonNode run = runs.get(i);
            JsonNode one = expected.get(i);
            assertThat(run.get("oilC")).isEqualTo(one.get("oil_c"));
            assertThat(run.get("held").asBoolean())
                    .isEqualTo(one.get("verdict").asString().equals("held"));
            assertThat(run.get("weakest")).isEqualTo(one.get("weakest"));
            boolean pressureLost = one.get("losses").toString().contains("pressure_lost");
            String low = pressureLost ? "engaged_pressure_min" : "settled_pressure_min";
            assertThat(run.get("lowestPa").asDouble())
                    .isEqualTo(one.get(low + "_pa").asDouble());
            assertThat(run.get("lowestAtS").asDouble())
                    .isEqualTo(one.get(low + "_at_s").asDouble());
        }
    }

    @Test
    void shouldProveALogInOurOwnFormatAtOnceAsTheCommandDoes() throws Exception {
        PageClient.Answer answer = page.upload("Monday, run (1).CSV", LogTexts.own());
        assertThat(answer.status()).isEqualTo(201);
        assertThat(answer.body().get("file").asString()).isEqualTo("monday-run-1.csv");
        assertThat(files()).containsExactly("monday-run-1.csv");
        assertThat(logs().resolve("monday-run-1.csv")).hasContent(LogTexts.own());
        requireVerdictOfTheCommand("monday-run-1.csv");
    }

    @Test
    void shouldProveAForeignLogWithThePicksAsTheCommandDoesAndKeepItOverARestart() throws Exception {
        assertThat(page.upload("foreign.txt", LogTexts.foreign()).status()).isEqualTo(201);
        JsonNode log = page.get("/api/logs").body().get("logs").get(0);
        assertThat(log.get("problem").asString()).startsWith("foreign.csv: no header found");

        JsonNode shown = page.get("/api/logs/foreign.csv/mapping").body();
        assertThat(shown.get("picks")
                        .get("columns")
                        .get("road-speed")
                        .get("column")
                        .asString())
                .isEqualTo("v Rad [km/h]");
        assertThat(shown.get("problem").isNull()).isTrue();
        assertThat(shown.get("rows").get(3).get("numbers").get("time").asDouble())
                .isEqualTo(300 * 1e-3);

        Map<String, Object> picks = Map.of(
                "separator",
                ";",
                "columns",
                Map.of(
                        "time", Map.of("column", "Uhr [ms]", "unit", "ms"),
                        "road-speed", Map.of("column", "v Rad [km/h]", "unit", "km/h"),
                        "oil-temperature", Map.of("column", "T1 [°F]", "unit", "°F"),
                        "brake", Map.of("column", "Pedal")));
        assertThat(page.post("/api/logs/foreign.csv/preview", picks)
                        .body()
                        .get("rows")
                        .get(0)
                        .get("words")
                        .get("brake")
                        .asString())
                .isEqualTo("on");
        assertThat(page.post("/api/logs/foreign.csv/mapping", picks).status()).isEqualTo(200);
        assertThat(files()).containsExactly("foreign.csv", "foreign.map.yaml");
        requireVerdictOfTheCommand("foreign.csv");

        JsonNode before = drive("foreign.csv").get("runs");
        stop();
        start();
        assertThat(proved("foreign.csv").get("runs")).isEqualTo(before);
        assertThat(page.get("/api/logs").body().get("logs").get(0).get("mapped").asBoolean())
                .isTrue();
    }

    @Test
    void shouldTellFileRowAndColumnOfABadCellAndKeepTheLogToBeMended() throws Exception {
        page.upload("bad.csv", LogTexts.bad());
        assertThat(proved("bad.csv").get("problem").asString())
                .isEqualTo("bad.csv, line 202, column \"motor_speed_rpm\": found \"fast\", expected a number in rpm"
                        + " between -30000 and 30000");
        assertThat(files()).containsExactly("bad.csv");
        assertThat(page.delete("/api/logs/bad.csv").status()).isEqualTo(200);
        assertThat(files()).isEmpty();
        assertThat(page.upload("bad.csv", LogTexts.own()).status()).isEqualTo(201);
        assertThat(proved("bad.csv").get("runs").isArray()).isTrue();
    }

    @Test
    void shouldTakeARecordingAsADrive() throws Exception {
        assertThat(page.get("/api/recordings").body().get(1).get("start").asString())
                .isEqualTo("2026-01-02 03:04:05");
        assertThat(page.post("/api/recordings/1", "").status()).isEqualTo(201);
        assertThat(proved("recording-1.csv").get("runs").isArray()).isTrue();
        assertThat(page.post("/api/recordings/1", "").problem()).contains("found a log of that name");
        for (String none : List.of("2", "3", "-1", "one", "9999999999999999999")) {
            assertThat(page.post("/api/recordings/" + none, "").status())
                    .as(none)
                    .isBetween(400, 499);
        }
        assertThat(files()).containsExactly("recording-1.csv");
    }

    private static List<String> threadsAtWork() {
        List<String> found = new ArrayList<>();
        for (Thread thread : Thread.getAllStackTraces().keySet()) {
            if (thread.getName().equals("run")
                    || thread.getName().equals("verdicts")
                    || thread.getName().equals("drive-reading")) {
                found.add(thread.getName());
            }
        }
        return found;
    }

    @Test
    void shouldEndTheProofOfALongLogWhenItIsRemovedOrTheServerCloses() throws Exception {
        page.upload("long.csv", LogTexts.hours(30));
        await("long.csv", drive -> drive.get("progress").asDouble() > 0);
        assertThat(page.delete("/api/logs/long.csv").status()).isEqualTo(200);
        // The thread is free for others, far sooner than thirty hours can be driven.
        page.upload("short.csv", LogTexts.own());
        assertThat(proved("short.csv").get("runs").isArray()).isTrue();

        page.upload("long.csv", LogTexts.hours(30));
        await("long.csv", drive -> drive.get("progress").asDouble() > 0);
        assertThat(threadsAtWork()).isNotEmpty();
        server.close();
        long endNs = System.nanoTime() + Duration.ofSeconds(30).toNanos();
        while (!threadsAtWork().isEmpty()) {
            assertThat(System.nanoTime()).as("threads %s", threadsAtWork()).isLessThan(endNs);
            Thread.sleep(50);
        }
    }

    @Test
    void shouldKeepWhatIsNotFoundApartFromWhatIsThere() throws Exception {
        page.upload("one.csv", LogTexts.own());
        for (String path : List.of("none.csv", "..", "one", "one.csv.", ".one.csv", "one.map.yaml", "stop-and-go")) {
            assertThat(page.delete("/api/logs/" + path).status()).as(path).isBetween(400, 499);
            assertThat(page.post("/api/logs/" + path + "/mapping", Map.of()).status())
                    .as(path)
                    .isBetween(400, 499);
        }
        assertThat(page.post("/api/logs/one.csv/mapping", Map.of("columns", Map.of()))
                        .problem())
                .isEqualTo("one.map.yaml: columns has no time, expected time and motor-speed or road-speed");
        assertThat(page.post("/api/logs/one.csv/mapping", List.of()).status()).isEqualTo(400);
        assertThat(page.post("/api/logs/one.csv/preview", Map.of("separator", "x"))
                        .problem())
                .contains("found \"x\", expected a comma, a semicolon");
        assertThat(files()).containsExactly("one.csv");
        assertThat(proved("one.csv").get("runs").isArray()).isTrue();
    }
}
