package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import linehold.simulator.build.Builds;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.Outcome;
import linehold.simulator.faults.Phase;
import org.junit.jupiter.api.Test;

class FaultsTableTest {
    private static final Campaign COVERED = FaultsFixtures.small(Outcome.SLIP_BEFORE_NOTICE, false);
    private static final Campaign NOT_COVERED = FaultsFixtures.small(Outcome.SLIP_BEFORE_NOTICE, true);

    private static String plain(Campaign campaign) {
        return FaultsTable.of(campaign, UnitSystem.METRIC, false);
    }

    @Test
    void shouldSayInTheLastSentenceWhetherTheClaimHolds() {
        assertThat(lastSentence(COVERED)).startsWith("COVERED: ").contains("1 run it does not claim came to harm");
        assertThat(lastSentence(NOT_COVERED)).startsWith("NOT COVERED: 1 run");
        assertThat(lastSentence(FaultsFixtures.empty())).startsWith("NOTHING TRIED: ");
        assertThat(FaultsFixtures.empty().covered()).isFalse();
    }

    private static String lastSentence(Campaign campaign) {
        List<String> lines = plain(campaign).lines().toList();
        int start = lines.size() - 1;
        while (lines.get(start).startsWith("  ")) {
            start--;
        }
        return String.join("", lines.subList(start, lines.size())).replace("  ", " ");
    }

    @Test
    void shouldCountOutcomesAndTellHarm() {
        assertThat(plain(COVERED))
                .contains("3 runs: 2 faults in 3 phases at 1 oil temperature")
                .containsPattern("slip before notice +1")
                .containsPattern("never noticed +0")
                .contains("Harm, not claimed: pump-stalled, pulling away at full torque at 120 °C")
                .contains("1 beside sender-stuck");
        assertThat(plain(NOT_COVERED)).contains("Harm: pump-stalled");
    }

    @Test
    void shouldShowFaultsWithHarmByPhaseAndCountTheOthers() {
        // Phases in their order: creeping, pulling away, cruising. The fault was tried in the second one only.
        assertThat(plain(NOT_COVERED))
                .containsPattern("(?m)^pump-stalled +- +S +-$")
                .contains("the other 1 fault: harmless or noticed in time")
                .contains("1 creeping; 2 pulling away at full torque; 3 cruising");
        assertThat(plain(COVERED)).containsPattern("(?m)^pump-stalled +- +s +-$");
        assertThat(plain(FaultsFixtures.small(Outcome.HARMLESS, true))).doesNotContain("1 creeping; 2 pulling");
    }

    @Test
    void shouldTellOverpressureBesideTheOutcomes() {
        Campaign campaign = FaultsFixtures.campaign(
                Builds.demonstration(),
                List.of(FaultsFixtures.run(
                        FaultKind.REGULATOR_STUCK_SHUT,
                        null,
                        Phase.CRUISING,
                        120,
                        Outcome.NOTICED_IN_TIME,
                        true,
                        2.88904e8)));
        assertThat(plain(campaign)).contains("Overpressure: regulator-stuck-shut, 1 run, up to 2889 bar");
        assertThat(plain(COVERED)).doesNotContain("Overpressure");
    }

    @Test
    void shouldSayWhatKeyOnFindsOfTheFaultsThatShowNothing() {
        assertThat(plain(COVERED).replaceAll("\\s+", " "))
                .contains("of 4 faults that can lie there before the key is turned, key-on finds 2 before")
                .contains("of the 2 that show nothing by themselves, 1 (not: pump current sensor dead)");
    }

    @Test
    void shouldCountTheClaimedRunsThatOnlyDriveTold() {
        assertThat(plain(FaultsFixtures.silent()).replaceAll("\\s+", " "))
                .contains("Without a trouble code: 2 claimed runs noticed by withheld or reduced drive alone; 1 of them"
                        + " lost hold pressure.");
        assertThat(plain(COVERED)).doesNotContain("Without a trouble code");
    }

    @Test
    void shouldPointAtTheCautions() {
        assertThat(plain(COVERED)).contains("no certified safety system").contains("cautions");
    }

    @Test
    void shouldKeepTheTerminalNarrowAndPlainWhereThereIsNoColour() {
        for (UnitSystem units : UnitSystem.values()) {
            String table = FaultsTable.of(FaultsFixtures.large(), units, false);
            assertThat(table.lines())
                    .allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(100));
            assertThat(table).doesNotContain("\u001b", "NaN", "∞");
        }
        assertThat(FaultsTable.of(NOT_COVERED, UnitSystem.METRIC, true)).contains("\u001b[1;31m");
    }
}
