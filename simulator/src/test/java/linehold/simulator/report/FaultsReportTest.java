package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import linehold.controller.DrivePermission;
import linehold.controller.switching.PumpState;
import linehold.simulator.build.Builds;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.Coverage;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.LatentFinding;
import linehold.simulator.faults.Outcome;
import linehold.simulator.faults.Phase;
import org.junit.jupiter.api.Test;

class FaultsReportTest {
    private static FaultRun run(FaultKind kind, Phase phase, Outcome outcome, boolean claimed, FaultKind latent) {
        boolean noticed = outcome != Outcome.HARMLESS && outcome != Outcome.NEVER_NOTICED;
        return new FaultRun(
                Fault.usual(kind, 10),
                latent,
                phase,
                "stop-and-go",
                120,
                claimed,
                outcome,
                noticed ? 0.04 : Double.NaN,
                noticed ? List.of("P0868") : List.of(),
                PumpState.ELECTRIC,
                DrivePermission.REDUCED,
                5.2e5,
                Double.POSITIVE_INFINITY,
                outcome.covered() ? Double.NaN : 0.1,
                9e5,
                "the line <stood> & fell",
                "drive reduced");
    }

    private static Campaign campaign(Outcome outcome, boolean claimed) {
        return new Campaign(
                Builds.demonstration(),
                List.of(
                        run(FaultKind.HOSE_LEAK, Phase.CREEPING, Outcome.NOTICED_IN_TIME, true, null),
                        run(FaultKind.HOSE_LEAK, Phase.CRUISING, Outcome.HARMLESS, true, null),
                        run(FaultKind.PUMP_STALLED, Phase.PULLING_AWAY, outcome, claimed, null)),
                List.of(run(FaultKind.PUMP_DRY, Phase.CREEPING, Outcome.NEVER_NOTICED, true, FaultKind.SENDER_STUCK)),
                40,
                List.of(
                        new LatentFinding(FaultKind.MAIN_RELAY_WELDED, true, List.of("P27A1")),
                        new LatentFinding(FaultKind.PUMP_WORN, false, List.of())),
                List.of(new Coverage(FaultKind.Part.PUMP, "current", 7, 6, 182, 179, "high", "a table (from memory)")));
    }

    private static final Campaign COVERED = campaign(Outcome.SLIP_BEFORE_NOTICE, false);
    private static final Campaign NOT_COVERED = campaign(Outcome.SLIP_BEFORE_NOTICE, true);

    @Test
    void shouldSayInTheLastLineWhetherTheClaimHolds() {
        assertThat(lastLine(COVERED)).startsWith("COVERED: ").contains("1 run it does not claim came to harm");
        assertThat(lastLine(NOT_COVERED)).startsWith("NOT COVERED: 1 run");
    }

    private static String lastLine(Campaign campaign) {
        List<String> lines =
                FaultsTable.of(campaign, UnitSystem.METRIC, false).lines().toList();
        int start = lines.size() - 1;
        while (lines.get(start).startsWith("  ")) {
            start--;
        }
        return String.join("", lines.subList(start, lines.size())).replace("  ", " ");
    }

    @Test
    void shouldCountOutcomesAndTellHarm() {
        String table = FaultsTable.of(COVERED, UnitSystem.METRIC, false);
        assertThat(table)
                .contains("3 runs: 2 faults in 3 phases at 1 oil temperature")
                .containsPattern("slip before notice +1")
                .containsPattern("never noticed +0")
                .contains("Harm, not claimed: pump-stalled, pulling away at full torque at 120 °C")
                .contains("1 beside sender-stuck")
                .contains("Key-on finds 1 of 2 silent faults before drive: main-relay-welded.");
    }

    @Test
    void shouldKeepTheTerminalNarrowAndPlainWhereThereIsNoColour() {
        String table = FaultsTable.of(NOT_COVERED, UnitSystem.METRIC, false);
        assertThat(table.lines()).allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(100));
        assertThat(table).doesNotContain("\u001b");
        assertThat(FaultsTable.of(NOT_COVERED, UnitSystem.METRIC, true)).contains("\u001b[1;31m");
    }

    @Test
    void shouldMakeAWellFormedSelfContainedPage() throws Exception {
        String page = FaultsHtml.of(COVERED, UnitSystem.METRIC);
        DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
        String xml = page.substring(page.indexOf("<html"));
        factory.newDocumentBuilder().parse(new ByteArrayInputStream(xml.getBytes(StandardCharsets.UTF_8)));
        assertThat(page).doesNotContain("http", "<script", "src=").contains("the line &lt;stood&gt; &amp; fell");
        assertThat(FaultsHtml.of(COVERED, UnitSystem.METRIC)).isEqualTo(page);
    }

    @Test
    void shouldShowDetectionReactionClaimCoverageAndCautions() {
        String page = FaultsHtml.of(COVERED, UnitSystem.METRIC);
        assertThat(page)
                .contains("P0868, 0.04 s after it")
                .contains("Not claimed by the build")
                .contains("6 of 7 (86 %)", "a table (from memory)")
                .contains("finds 1 of 2")
                .contains("Chock the wheels", "no certified safety system", "licensed practice");
    }

    @Test
    void shouldSpeakUsUnits() {
        // 5.2 bar are 75.4 psi (1 psi = 6894.757 Pa, NIST SP 811 appendix B.8)
        assertThat(FaultsHtml.of(COVERED, UnitSystem.US))
                .contains("75.4", "248 °F")
                .doesNotContain("120 °C");
    }
}
