package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import linehold.controller.Controller;
import linehold.controller.calibration.Key;
import linehold.controller.safety.TroubleCode;
import linehold.rig.adapter.simulated.SimulatedRig;
import linehold.rig.loop.ControlLoop;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.SteppedClock;
import linehold.rig.loop.TickRing;
import linehold.rig.paper.FaultTable;
import linehold.rig.paper.Worker;
import linehold.rig.port.Watchdog;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.drive.Drives;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.FaultCampaign;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.Phase;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class FaultRoutesTest {
    private final Build build = BuildFile.loadNamed("demonstration");
    private final HttpClient client = HttpClient.newHttpClient();
    private PageServer server;

    private void serve(PageServer.Routes... parts) {
        server = new PageServer(PageSettings.loopback(0), Map.of(), null, List.of(parts));
        server.start();
    }

    private FaultTable table() {
        return new FaultTable(build, new Worker("campaign"), new Worker("run"));
    }

    @AfterEach
    void close() {
        if (server != null) {
            server.close();
        }
    }

    private HttpResponse<String> get(String path) {
        return answer(HttpRequest.newBuilder(URI.create(server.address()).resolve(path)));
    }

    private HttpResponse<String> post(String path, Object body) {
        String origin = server.address().replaceAll("/$", "");
        return answer(HttpRequest.newBuilder(URI.create(server.address()).resolve(path))
                .header("Origin", origin)
                .POST(BodyPublishers.ofString(PageServer.JSON.writeValueAsString(body))));
    }

    private HttpResponse<String> answer(HttpRequest.Builder request) {
        try {
            return client.send(request.build(), BodyHandlers.ofString());
        } catch (IOException e) {
            throw new IllegalStateException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    private static JsonNode tree(HttpResponse<String> answer) {
        return PageServer.JSON.readTree(answer.body());
    }

    @Test
    void shouldShowTheRunThatTheCampaignMakes() {
        FaultCampaign campaign = new FaultCampaign(build, 1, List.of(FaultKind.HOSE_LEAK), List.of(Phase.CREEPING));
        double hotC = campaign.cornersC().get(1);
        FaultRun expected = campaign.run(FaultKind.HOSE_LEAK, Phase.CREEPING, hotC, moment -> true);
        serve(new FaultRoutes(table()));

        HttpResponse<String> answer =
                post("/api/faults/run", Map.of("fault", "hose-leak", "phase", "creeping", "oilC", hotC));

        assertThat(answer.statusCode()).isEqualTo(200);
        JsonNode story = tree(answer);
        assertThat(story.at("/run/rank").asInt()).isEqualTo(expected.outcome().ordinal());
        assertThat(story.at("/run/lowestPa").asDouble()).isEqualTo(expected.lowestPressurePa());
        assertThat(story.at("/effect").asString()).isEqualTo(expected.effect());
        assertThat(story.at("/reaction").asString()).isEqualTo(expected.reaction());
        assertThat(lowestUnderAnElement(story)).isEqualTo(expected.lowestPressurePa());
    }

    /** What the chart draws, read as the campaign judges: after the fault, under an element that was engaged before. */
    private static double lowestUnderAnElement(JsonNode story) {
        JsonNode trace = story.get("trace");
        int engaged = IntStream.range(0, story.get("engagements").size())
                .filter(i -> story.at("/engagements/" + i).asString().equals("engaged"))
                .findFirst()
                .orElseThrow();
        double startS = story.at("/run/startS").asDouble();
        return IntStream.range(1, trace.get("t").size())
                .filter(i -> trace.at("/t/" + i).asDouble() >= startS)
                .filter(i -> trace.at("/engagement/" + i).asInt() == engaged
                        && trace.at("/engagement/" + (i - 1)).asInt() == engaged)
                .mapToDouble(i -> trace.at("/p/" + i).asDouble())
                .min()
                .orElse(Double.NaN);
    }

    @Test
    void shouldRefuseRunsThatTheCampaignHasNot() {
        serve(new FaultRoutes(table()));
        assertThat(post("/api/faults/run", Map.of("fault", "tyre-flat", "phase", "creeping", "oilC", 90))
                        .statusCode())
                .isEqualTo(422);
        HttpResponse<String> warm =
                post("/api/faults/run", Map.of("fault", "hose-leak", "phase", "creeping", "oilC", 59.5));
        assertThat(warm.statusCode()).isEqualTo(422);
        assertThat(tree(warm).get("problem").asString()).startsWith("oil: found 59.5 °C, expected one of");
        assertThat(post("/api/faults/run", List.of("hose-leak")).statusCode()).isEqualTo(400);
        assertThat(get("/api/faults").statusCode()).isEqualTo(200);
        assertThat(tree(get("/api/faults")).at("/progress/state").asString()).isEqualTo("idle");
    }

    /** The requests come from between two ticks, so that it is known at which tick each must have been done. */
    @Test
    void shouldRaiseTheCodeOfAFaultPutInAndLoseItWhenItIsCleared() {
        SteppedClock clock = new SteppedClock();
        Controller controller = new Controller(build.calibration());
        List<Boolean> seen = new ArrayList<>();
        int[] status = new int[2];
        try (SimulatedRig car = new SimulatedRig(build, Drives.resolve("stop-and-go", build), 60, 1, List.of())) {
            serve(new FaultRoutes(table()), new LiveFaultRoutes(car.liveFaults()));
            ControlLoop loop = new ControlLoop(
                    car,
                    (nowNs, in, out) -> {
                        int tick = seen.size();
                        if (tick == 2000) {
                            status[0] = wish("sender-open", true);
                        } else if (tick == 3000) {
                            status[1] = wish("sender-open", false);
                        }
                        controller.step(nowNs, in, out);
                        seen.add((out.activeCodes & TroubleCode.SENDER_LOST.bit()) != 0);
                    },
                    clock,
                    Watchdog.NONE,
                    build.calibration().is(Key.NORMALLY_CLOSED_CONTACT),
                    build.calibration().ns(Key.CONTROL_PERIOD),
                    new RigFaults(),
                    new TickRing(64));
            loop.run();
        }
        assertThat(status).containsOnly(200);
        assertThat(seen.subList(0, 2000)).doesNotContain(true);
        // 0.2 s at 5 ms a tick is the controller's time to be sure of a sender out of its range.
        assertThat(seen.subList(2001, 3000).indexOf(true)).isBetween(1, 60);
        assertThat(seen.get(3000)).isTrue();
        assertThat(seen.subList(4000, seen.size())).isNotEmpty().doesNotContain(true);
    }

    private int wish(String fault, boolean present) {
        return post("/api/live-faults", Map.of("fault", fault, "present", present))
                .statusCode();
    }

    @Test
    void shouldRefuseFaultsOfTheControlUnitForItIsTheProgramItself() {
        try (SimulatedRig car = new SimulatedRig(build, Drives.resolve("stop-and-go", build), 60, 1, List.of())) {
            serve(new LiveFaultRoutes(car.liveFaults()));
            HttpResponse<String> answer = post("/api/live-faults", Map.of("fault", "unit-dead", "present", true));
            assertThat(answer.statusCode()).isEqualTo(422);
            assertThat(tree(answer).get("problem").asString()).contains("is the program itself");
        }
    }

    @Test
    void shouldRefuseFaultsAndRunsBesideABoard() {
        serve(new FaultRoutes(table()), LiveFaultRoutes.board());
        HttpResponse<String> answer = post("/api/live-faults", Map.of("fault", "sender-open", "present", true));
        assertThat(answer.statusCode()).isEqualTo(409);
        assertThat(tree(answer).get("problem").asString()).contains("this rig drives a board");
        assertThat(post("/api/faults/start", Map.of()).statusCode()).isEqualTo(409);
        assertThat(post("/api/faults/run", Map.of("fault", "hose-leak", "phase", "creeping", "oilC", 90))
                        .statusCode())
                .isEqualTo(409);
        assertThat(tree(get("/api/faults")).at("/progress/state").asString()).isEqualTo("idle");
    }

    @Test
    void shouldHaveNoLiveFaultsWithoutARig() {
        serve(new FaultRoutes(table()));
        assertThat(wish("sender-open", true)).isEqualTo(404);
    }

    @Test
    void shouldAskForAnOriginBeforeItChangesAnything() {
        try (SimulatedRig car = new SimulatedRig(build, Drives.resolve("stop-and-go", build), 60, 1, List.of())) {
            serve(new LiveFaultRoutes(car.liveFaults()));
            HttpResponse<String> answer =
                    answer(HttpRequest.newBuilder(URI.create(server.address()).resolve("/api/live-faults"))
                            .POST(BodyPublishers.ofString("{\"fault\":\"sender-open\",\"present\":true}")));
            assertThat(answer.statusCode()).isEqualTo(403);
            assertThat(car.liveFaults().state(FaultKind.SENDER_OPEN).name()).isEqualTo("ABSENT");
        }
    }
}
