package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.BooleanSupplier;
import linehold.rig.procedure.BenchKey;
import linehold.rig.procedure.Cautions;
import linehold.simulator.build.BuildFile;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** Who may move a coil from the page, over a real connection. The clock of the bench key is turned by the tests. */
@Timeout(120)
class BenchRoutesTest {
    private static final HttpClient CLIENT = HttpClient.newHttpClient();

    @TempDir
    private Path folder;

    private final AtomicLong keyNs = new AtomicLong(1);
    private PacedBench bench;
    private PageServer server;

    @BeforeEach
    void start() {
        bench = new PacedBench(20, keyNs::get, folder.resolve("records"));
        serve(new BenchRoutes(bench.desk, true, false));
    }

    private void serve(PageServer.Routes routes) {
        if (server != null) {
            server.close();
        }
        server = new PageServer(PageSettings.loopback(0), Map.of(), null, List.of(routes));
        server.start();
    }

    @AfterEach
    void stop() throws InterruptedException {
        server.close();
        bench.close();
    }

    private record Reply(int status, String body) {
        JsonNode json() {
            return PageServer.JSON.readTree(body);
        }

        String problem() {
            return body.startsWith("{") ? json().get("problem").asString() : body;
        }
    }

    private Reply send(HttpRequest.Builder request) {
        try {
            HttpResponse<String> answer = CLIENT.send(request.build(), BodyHandlers.ofString());
            return new Reply(answer.statusCode(), answer.body());
        } catch (IOException e) {
            throw new IllegalStateException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    private HttpRequest.Builder to(String path) {
        return HttpRequest.newBuilder(URI.create(server.address()).resolve("/api/bench" + path));
    }

    private HttpRequest.Builder posting(String path, String body) {
        return to(path).header("Origin", server.address().replaceAll("/$", "")).POST(BodyPublishers.ofString(body));
    }

    private Reply post(String path, Object body) {
        return send(posting(path, PageServer.JSON.writeValueAsString(body)));
    }

    private JsonNode state() {
        return send(to("/state")).json();
    }

    private String takeKey() {
        Reply reply = post("/key", Map.of("cautions", Cautions.MARK));
        assertThat(reply.status).as(reply.body).isEqualTo(200);
        return reply.json().get("secret").asString();
    }

    private Reply start(String secret, String procedure) {
        return post("/start", Map.of("secret", secret, "procedure", procedure));
    }

    private Reply answer(String secret, long question, Object yes) {
        return post("/answer", Map.of("secret", secret, "question", question, "yes", yes));
    }

    private static void await(String what, BooleanSupplier reached) {
        long endNs = System.nanoTime() + Duration.ofSeconds(60).toNanos();
        while (!reached.getAsBoolean()) {
            assertThat(System.nanoTime()).as(what).isLessThan(endNs);
            try {
                Thread.sleep(2);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new IllegalStateException(e);
            }
        }
    }

    private long awaitQuestion() {
        await(
                "a question",
                () -> state().at("/step/question").asLong() > 0
                        && state().at("/step/handDone").asBoolean());
        return state().at("/step/question").asLong();
    }

    /** Wiring check, until it has switched the pump off. */
    private String runUntilThePumpIsOff() {
        String secret = takeKey();
        assertThat(start(secret, "wiring").status).isEqualTo(200);
        assertThat(answer(secret, awaitQuestion(), true).status).isEqualTo(200);
        await("pump off", () -> !bench.mainFeeds());
        return secret;
    }

    private JsonNode ended() {
        await("a record", () -> !state().at("/records").isEmpty());
        assertThat(bench.safe()).isTrue();
        return state();
    }

    @Test
    void shouldTellCautionsProceduresAndLimitsBeforeAnythingElse() {
        JsonNode about = send(to("")).json();
        assertThat(about.get("mode").asString()).isEqualTo("bench");
        assertThat(about.get("cautions")).hasSize(Cautions.ALL.size());
        assertThat(about.at("/cautions/0").asString()).isEqualTo(Cautions.ALL.get(0));
        assertThat(about.get("procedures")).hasSize(10);
        assertThat(about.at("/procedures/0/steps/0/instruction").asString()).startsWith("Key on.");
        assertThat(about.at("/limits/highestPa").asDouble()).isEqualTo(12.5e5);
        assertThat(about.get("refusal").isNull()).isTrue();
        await(
                "values before the first procedure",
                () -> state().at("/values/linePa").asDouble() > 1e5);
    }

    @Test
    void shouldHandOutTheKeyOnlyForTheCautionsAsTheyAreShown() {
        for (Map<String, Object> body : List.<Map<String, Object>>of(
                Map.of(), Map.of("cautions", ""), Map.of("cautions", "true"), Map.of("confirmed", true))) {
            Reply reply = post("/key", body);
            assertThat(reply.status).isEqualTo(422);
            assertThat(reply.problem()).contains("expected them confirmed");
        }
        assertThat(state().get("holder").isNull()).isTrue();
        takeKey();
        assertThat(state().get("holder").asString()).isEqualTo("127.0.0.1");
    }

    @Test
    void shouldMoveNothingForWhoeverDoesNotHoldTheKey() {
        assertThat(start("", "wiring").status).isEqualTo(403);
        assertThat(post("/start", Map.of("procedure", "wiring")).status).isEqualTo(403);
        takeKey();
        assertThat(start("secret-2", "wiring").status).isEqualTo(403);
        assertThat(answer("secret-2", 1, true).status).isEqualTo(403);
        assertThat(post("/beat", Map.of("secret", "secret-2")).status).isEqualTo(403);
        assertThat(post("/beat", Map.of()).status).isEqualTo(403);
        assertThat(state().get("busy").asBoolean()).isFalse();
        assertThat(state().get("procedure").isNull()).isTrue();
    }

    @Test
    void shouldRefuseASecondBrowserWhileOneHoldsTheKey() {
        String secret = takeKey();
        Reply second = post("/key", Map.of("cautions", Cautions.MARK));
        assertThat(second.status).isEqualTo(409);
        assertThat(second.problem()).contains("Another browser holds the bench key");
        post("/give-back", Map.of("secret", "not this one"));
        assertThat(state().get("holder").isNull()).isFalse();
        post("/give-back", Map.of("secret", secret));
        assertThat(takeKey()).isNotEqualTo(secret);
        assertThat(start(secret, "wiring").status).as("the first one's secret").isEqualTo(403);
    }

    @Test
    void shouldStopIntoTheSafeStateWhenTheHeartbeatIsLost() throws IOException {
        String secret = runUntilThePumpIsOff();
        keyNs.addAndGet(BenchKey.LONGEST_SILENCE_NS + 1);
        JsonNode state = ended();
        assertThat(state.at("/result/outcome").asString()).isEqualTo("stopped");
        assertThat(Files.readString(Path.of(state.at("/records/0/file").asString())))
                .contains("\"outcome\" : \"stopped\"", "held the bench key was not heard for 3 s");
        assertThat(bench.unsafeTicks()).isZero();
        assertThat(post("/beat", Map.of("secret", secret)).status)
                .as("what is lost stays lost")
                .isEqualTo(403);
        assertThat(start(secret, "wiring").status).isEqualTo(403);
        takeKey();
    }

    @Test
    void shouldGoOnForAsLongAsItIsHeard() {
        String secret = runUntilThePumpIsOff();
        for (int i = 0; i < 5; i++) {
            keyNs.addAndGet(BenchKey.LONGEST_SILENCE_NS - 1);
            assertThat(post("/beat", Map.of("secret", secret)).status).isEqualTo(200);
        }
        await("the last question", () -> state().at("/step/title").asString().equals("Lamp and buzzer"));
        answer(secret, awaitQuestion(), true);
        JsonNode state = ended();
        assertThat(state.at("/result/outcome").asString()).isEqualTo("pass");
        assertThat(Path.of(state.at("/records/0/file").asString()))
                .hasFileName("20260102T030405Z-wiring.json")
                .exists();
        assertThat(state.get("findings").findValuesAsString("verdict")).contains("pass", "information");
    }

    @Test
    void shouldStopWhenTheKeyIsGivenBack() {
        String secret = runUntilThePumpIsOff();
        post("/give-back", Map.of("secret", secret));
        assertThat(ended().at("/result/sentence").asString()).isEqualTo("The bench key was given back.");
        assertThat(bench.unsafeTicks()).isZero();
    }

    @Test
    void shouldStopForWhoeverAsksAndKeepTheSecondRecordOfOneSecond() {
        String secret = runUntilThePumpIsOff();
        assertThat(post("/stop", Map.of()).status).isEqualTo(200);
        assertThat(ended().at("/result/sentence").asString()).isEqualTo("Stopped from the page.");
        assertThat(start(secret, "wiring").status).isEqualTo(200);
        post("/stop", Map.of());
        await("both", () -> state().at("/records").size() == 2);
        assertThat(folder.resolve("records/20260102T030405Z-wiring.json")).exists();
        assertThat(folder.resolve("records/20260102T030405Z-wiring-2.json")).exists();
        assertThat(post("/stop", Map.of()).status).as("with nothing to stop").isEqualTo(200);
    }

    @Test
    void shouldRefuseWhatIsNotAskedOrNotAnAnswer() {
        String secret = takeKey();
        assertThat(answer(secret, 0, true).status).as("no question").isEqualTo(409);
        assertThat(start(secret, "wirin").status).isEqualTo(422);
        assertThat(post("/start", Map.of("secret", secret)).status).isEqualTo(422);
        start(secret, "sender");
        long question = awaitQuestion();
        assertThat(start(secret, "wiring").problem()).isEqualTo("Sender check is running; stop it first.");
        assertThat(answer(secret, question - 1, true).status).as("stale").isEqualTo(409);
        assertThat(answer(secret, question + 1, true).status).as("to come").isEqualTo(409);
        assertThat(answer(secret, question, false).status)
                .as("who cannot confirm stops")
                .isEqualTo(422);
        assertThat(post("/answer", Map.of("secret", secret, "question", question, "typed", "1 bar")).status)
                .isEqualTo(422);
        assertThat(post("/answer", Map.of("secret", secret, "question", question)).status)
                .isEqualTo(400);
        answer(secret, question, true);
        await(
                "gauge",
                () -> state().at("/step/quantity").asString("").equals("pressure") && awaitQuestion() > question);
        long gauge = awaitQuestion();
        assertThat(answer(secret, question, true).status)
                .as("answered long ago")
                .isEqualTo(409);
        for (String typed : List.of("", "3", "warm", "3 °C", "NaN bar", "1e999 bar")) {
            Reply reply = post("/answer", Map.of("secret", secret, "question", gauge, "typed", typed));
            assertThat(reply.status).as(typed).isEqualTo(422);
            assertThat(reply.problem()).contains("expected a pressure with its unit");
        }
        assertThat(answer(secret, gauge, true).status).isEqualTo(422);
        assertThat(post("/answer", Map.of("secret", secret, "question", gauge, "typed", "0 psi")).status)
                .isEqualTo(200);
        await("the next step", () -> state().at("/findings").size() > 1);
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void shouldRefuseProceduresWhereNoBenchRuns(boolean driving) {
        serve(new NoBenchRoutes(BuildFile.loadNamed("demonstration"), driving));
        JsonNode about = send(to("")).json();
        assertThat(about.get("mode").asString()).isEqualTo(driving ? "vehicle" : "paper");
        assertThat(about.get("procedures")).hasSize(10);
        for (String path : List.of("/key", "/beat", "/give-back", "/start", "/answer", "/stop")) {
            Reply reply = post(path, Map.of("cautions", Cautions.MARK, "secret", "secret-1", "procedure", "wiring"));
            assertThat(reply.status).as(path).isEqualTo(409);
            assertThat(reply.problem()).contains(driving ? "refused in vehicle mode" : "No rig is running");
        }
        assertThat(send(to("/state")).status).isEqualTo(409);
    }

    @Test
    void shouldLetAnotherMachineWatchAndStopButNotHold() {
        String secret = runUntilThePumpIsOff();
        serve(new BenchRoutes(bench.desk, true, request -> false));
        assertThat(send(to("")).json().get("refusal").asString()).contains("--bench-from-network");
        Reply taking = post("/key", Map.of("cautions", Cautions.MARK));
        assertThat(taking.status).isEqualTo(403);
        assertThat(taking.problem()).contains("own machine");
        assertThat(start(secret, "wiring").status)
                .as("a secret that was carried away")
                .isEqualTo(403);
        assertThat(answer(secret, 1, true).status).isEqualTo(403);
        assertThat(state().get("busy").asBoolean()).isTrue();
        assertThat(post("/stop", Map.of()).status).isEqualTo(200);
        assertThat(ended().at("/result/outcome").asString()).isEqualTo("stopped");
    }

    @Test
    void shouldBelieveTheAddressOfTheConnectionAndNothingElse() throws IOException {
        assertThat(OwnMachine.has("127.0.0.1")).isTrue();
        assertThat(OwnMachine.has("127.8.9.10")).isTrue();
        assertThat(OwnMachine.has("0:0:0:0:0:0:0:1")).isTrue();
        assertThat(OwnMachine.has("[::1]")).isTrue();
        for (NetworkInterface card : NetworkInterface.networkInterfaces().toList()) {
            for (InetAddress own : card.inetAddresses().toList()) {
                assertThat(OwnMachine.has(own.getHostAddress())).as("%s", own).isTrue();
            }
        }
        // RFC 5737 and RFC 3849: addresses of nobody.
        assertThat(OwnMachine.has("203.0.113.7")).isFalse();
        assertThat(OwnMachine.has("2001:db8::7")).isFalse();

        String body = PageServer.JSON.writeValueAsString(Map.of("cautions", Cautions.MARK));
        for (String header : List.of("X-Forwarded-For", "Forwarded", "Via")) {
            assertThat(send(posting("/key", body).header(header, "127.0.0.1")).status)
                    .as(header)
                    .isEqualTo(403);
        }
        serve(new BenchRoutes(bench.desk, true, true));
        assertThat(send(posting("/key", body).header("X-Forwarded-For", "203.0.113.7")).status)
                .as("started for the network")
                .isEqualTo(200);
    }

    @Test
    void shouldTellThatARecordCouldNotBeWrittenAndGoOn() throws IOException {
        Files.writeString(folder.resolve("records"), "a file where the folder should be");
        String secret = runUntilThePumpIsOff();
        post("/stop", Map.of());
        JsonNode state = ended();
        assertThat(state.at("/records/0/file").isNull()).isTrue();
        assertThat(state.at("/records/0/problem").asString()).contains("records");
        assertThat(start(secret, "wiring").status).isEqualTo(200);
    }

    private String hostile(SplittableRandom random) {
        Map<String, Object> body = new HashMap<>();
        body.put("secret", random.nextBoolean() ? "secret-" + (2 + random.nextInt(9)) : random.nextInt());
        body.put("procedure", random.nextBoolean() ? "wiring" : List.of("wiring"));
        body.put("question", random.nextBoolean() ? random.nextLong() : "1");
        body.put("yes", random.nextBoolean() ? true : Map.of());
        body.put("cautions", random.nextBoolean() ? null : Cautions.MARK + " ");
        String json = PageServer.JSON.writeValueAsString(body);
        return switch (random.nextInt(5)) {
            case 0 -> json.substring(0, random.nextInt(json.length()));
            case 1 -> "x".repeat(random.nextInt(5000));
            case 2 -> "[".repeat(1 + random.nextInt(3000));
            case 3 -> "null";
            default -> json;
        };
    }

    /** Seed 7. */
    @Test
    void shouldAnswerFiveHundredHostileRequestsWithARefusalAndGoOnTicking() {
        SplittableRandom random = new SplittableRandom(7);
        String secret = takeKey();
        long before = bench.ticks();
        List<String> paths = List.of("/key", "/beat", "/start", "/answer", "/start/../start", "/key/%2e%2e", "/none");
        for (int i = 0; i < 500; i++) {
            String path = paths.get(random.nextInt(paths.size()));
            String body = hostile(random);
            HttpRequest.Builder request = posting(path, body);
            if (random.nextInt(4) == 0) {
                request.setHeader("Origin", "http://evil.example");
            }
            Reply reply = send(request);
            assertThat(reply.status).as("request %d: %s %s", i, path, body).isBetween(400, 499);
        }
        assertThat(bench.ticks()).isGreaterThan(before);
        assertThat(state().get("busy").asBoolean()).isFalse();
        assertThat(state().get("procedure").isNull()).isTrue();
        assertThat(post("/beat", Map.of("secret", secret)).status)
                .as("still the holder's")
                .isEqualTo(200);
    }
}
