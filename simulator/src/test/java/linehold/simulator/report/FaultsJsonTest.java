package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import linehold.controller.DrivePermission;
import linehold.controller.switching.PumpState;
import linehold.simulator.TestBuilds;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.Coverage;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.LatentFinding;
import linehold.simulator.faults.Outcome;
import linehold.simulator.faults.Phase;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class FaultsJsonTest {
    private static final Path PAGE = Path.of("..", "docs", "faults-json.md");

    private static FaultRun run(FaultKind latent, boolean claimed, Outcome outcome) {
        return new FaultRun(
                Fault.usual(FaultKind.HOSE_LEAK, 12.5),
                latent,
                Phase.CREEPING,
                "fault-parking",
                120,
                claimed,
                outcome,
                Double.NaN,
                List.of("P0868"),
                PumpState.HELP,
                DrivePermission.REDUCED,
                2.5e5,
                Double.POSITIVE_INFINITY,
                0.125,
                9e5,
                "it leaked",
                "it was seen");
    }

    private final Campaign campaign = new Campaign(
            TestBuilds.demonstration(),
            List.of(run(null, true, Outcome.SLIP_BEFORE_NOTICE), run(null, true, Outcome.HARMLESS)),
            List.of(run(FaultKind.SENDER_STUCK, false, Outcome.NEVER_NOTICED)),
            7,
            List.of(new LatentFinding(FaultKind.SENDER_STUCK, false, List.of())),
            List.of(new Coverage(FaultKind.Part.SENDER, "valid range", 5, 4, 10, 9, "low", "from memory")));

    private final JsonNode json = JsonMapper.builder().build().readTree(FaultsJson.toBytes(campaign));

    @Test
    void shouldSayWhatWasTriedAndWhatBecameOfIt() {
        assertThat(json.get("covered").asBoolean()).isFalse();
        assertThat(json.get("build").get("name").asString()).isEqualTo("demonstration");
        assertThat(json.get("single_outcomes").get("slip_before_notice").asInt())
                .isEqualTo(1);
        assertThat(json.get("single_outcomes").get("never_noticed").asInt()).isZero();
        assertThat(json.get("pair_runs").asInt()).isEqualTo(7);
        JsonNode run = json.get("singles").get(0);
        assertThat(run.get("fault").asString()).isEqualTo("hose-leak");
        assertThat(run.get("phase").asString()).isEqualTo("creeping");
        assertThat(run.get("start_s").asDouble()).isEqualTo(12.5);
        assertThat(run.get("slip_after_s").asDouble()).isEqualTo(0.125);
        assertThat(json.get("pairs").get(0).get("latent").asString()).isEqualTo("sender-stuck");
        assertThat(json.get("self_test").get(0).get("found").asBoolean()).isFalse();
        assertThat(json.get("coverage").get(0).get("modes_before_harm").asInt()).isEqualTo(4);
    }

    @Test
    void shouldCountTheClaimedRunsWithoutACode() {
        JsonNode silent = JsonMapper.builder()
                .build()
                .readTree(FaultsJson.toBytes(FaultsFixtures.silent()))
                .get("without_code");
        assertThat(silent.get("noticed_in_time").asInt()).isEqualTo(2);
        assertThat(silent.get("hold_pressure_lost").asInt()).isEqualTo(1);
        assertThat(json.get("without_code").get("noticed_in_time").asInt()).isZero();
    }

    @Test
    void shouldWriteNullForWhatNeverWas() {
        JsonNode run = json.get("singles").get(0);
        assertThat(run.get("latent").isNull()).isTrue();
        assertThat(run.get("noticed_after_s").isNull()).isTrue();
        assertThat(run.get("lowest_margin").isNull()).isTrue();
        assertThat(run.get("end_s").isNull()).as("it stays").isTrue();
    }

    @Test
    void shouldHaveEveryFieldOnItsPage() throws IOException {
        String page = Files.readString(PAGE, StandardCharsets.UTF_8);
        Set<String> names = new TreeSet<>();
        collect(json, names);
        assertThat(names).allSatisfy(name -> assertThat(page).contains("`" + name + "`"));
    }

    @Test
    void shouldGiveTheSameBytesForTheSameCampaign() {
        assertThat(FaultsJson.toBytes(campaign))
                .isEqualTo(FaultsJson.toBytes(campaign))
                .endsWith((byte) '\n');
    }

    private static void collect(JsonNode node, Set<String> names) {
        node.propertyNames().forEach(names::add);
        node.forEach(child -> collect(child, names));
    }
}
