package linehold.simulator.faults;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import linehold.controller.DrivePermission;
import linehold.simulator.EditedBuild;
import linehold.simulator.TestBuilds;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.InputException;
import linehold.simulator.fault.FaultKind;
import org.junit.jupiter.api.Test;

class FaultCampaignTest {
    private static final List<FaultKind> KINDS = List.of(FaultKind.PUMP_STALLED, FaultKind.SENDER_OPEN);
    private static final List<Phase> PHASES = List.of(Phase.STANDING_IN_GEAR, Phase.PULLING_AWAY);

    private static FaultCampaign campaign(Build build) {
        return new FaultCampaign(build, 1, KINDS, PHASES);
    }

    @Test
    void shouldTryEveryFaultInEveryPhaseAtBothCorners() {
        FaultCampaign faults = campaign(TestBuilds.demonstration());
        AtomicInteger done = new AtomicInteger();
        Campaign campaign = faults.run(done::incrementAndGet);
        assertThat(campaign.singles())
                .extracting(run -> run.fault().kind().key() + "@" + run.phase().key() + "@" + Math.round(run.oilC()))
                .containsExactly(
                        "pump-stalled@standing-in-gear@-20",
                        "pump-stalled@standing-in-gear@120",
                        "pump-stalled@pulling-away@-20",
                        "pump-stalled@pulling-away@120",
                        "sender-open@standing-in-gear@-20",
                        "sender-open@standing-in-gear@120",
                        "sender-open@pulling-away@-20",
                        "sender-open@pulling-away@120");
        // Two faults, four silent ones beside each, in two phases at two corners.
        assertThat(campaign.pairRuns()).isEqualTo(2 * 4 * 4);
        assertThat(campaign.selfTest()).extracting(LatentFinding::kind).isEqualTo(KINDS);
        assertThat(campaign.coverage()).extracting(Coverage::runs).containsExactly(4, 4);
        assertThat(done.get()).isEqualTo((int) faults.steps());
    }

    @Test
    void shouldComeOutTheSameEveryTime() {
        Build build = TestBuilds.demonstration();
        Campaign first = campaign(build).run(() -> {});
        Campaign second = campaign(build).run(() -> {});
        assertThat(second.singles()).isEqualTo(first.singles());
        assertThat(second.pairs()).isEqualTo(first.pairs());
        assertThat(second.selfTest()).isEqualTo(first.selfTest());
    }

    @Test
    void shouldNotDependOnWhatElseIsTried() {
        Build build = TestBuilds.demonstration();
        FaultRun alone = new FaultCampaign(build, 1, List.of(FaultKind.SENDER_OPEN), List.of(Phase.PULLING_AWAY))
                .run(FaultKind.SENDER_OPEN, Phase.PULLING_AWAY, 120, moment -> true);
        assertThat(campaign(build).run(() -> {}).singles()).contains(alone);
    }

    @Test
    void shouldStopTheCarOfADriverWhoIsRefusedDrive() {
        // A seized pump while standing: drive is withheld, so the car never pulls away and nothing slips.
        double[] fastest = {0};
        double[] lastS = {0};
        FaultRun run = campaign(TestBuilds.demonstration())
                .run(FaultKind.PUMP_STALLED, Phase.STANDING_IN_GEAR, 120, moment -> {
                    fastest[0] = Math.max(fastest[0], moment.shaftRadPerS);
                    lastS[0] = moment.timeS;
                    return true;
                });
        assertThat(run.outcome()).isEqualTo(Outcome.NOTICED_IN_TIME);
        assertThat(run.permission()).isEqualTo(DrivePermission.WITHHELD);
        assertThat(fastest[0]).isZero();
        assertThat(lastS[0]).isLessThan(25);
    }

    @Test
    void shouldNotHoldAgainstABuildWhatItDoesNotClaim() {
        Campaign claimed =
                campaign(EditedBuild.of("[pump-stalled@pulling-away, ", "[")).run(() -> {});
        assertThat(claimed.covered()).isFalse();
        Campaign modest = campaign(TestBuilds.demonstration()).run(() -> {});
        assertThat(modest.covered()).isTrue();
        assertThat(modest.singles()).filteredOn(run -> !run.claimed()).hasSize(2);
    }

    @Test
    void shouldRefuseABuildWhoseHealthyCarLosesPressure() {
        FaultCampaign faults =
                new FaultCampaign(BuildFile.loadNamed("rule-of-thumb"), 1, KINDS, List.of(Phase.PANIC_STOP));
        assertThatThrownBy(() -> faults.run(() -> {}))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("panic-stop-dry-slow at 120 °C")
                .hasMessageContaining("linehold prove");
    }

    @Test
    void shouldNameLineAndColumnOfAClaimThatMeansNothing() {
        for (String[] claim : new String[][] {
            {"pump-staled", "'pump-staled', expected 'pump-stalled'"},
            {"pump-stalled@pulling", "'pulling', expected"},
            {"'pump-stalled@'", "'', expected"}
        }) {
            Build build =
                    EditedBuild.of("uncovered-faults: [pump-stalled@pulling-away", "uncovered-faults: [" + claim[0]);
            assertThatThrownBy(() -> campaign(build))
                    .isInstanceOf(InputException.class)
                    .hasMessageMatching("(?s).*\\.yaml:\\d+:22: limits\\.uncovered-faults: found .*")
                    .hasMessageContaining(claim[1]);
        }
    }

    @Test
    void shouldLeaveOutFaultsOfPartsThatTheBuildLacks() {
        Build without = EditedBuild.of("standby-fitted: true", "standby-fitted: false");
        Campaign campaign = new FaultCampaign(
                        without,
                        1,
                        List.of(FaultKind.STANDBY_RELAY_WELDED, FaultKind.SENDER_OPEN),
                        List.of(Phase.STANDING_IN_GEAR))
                .run(() -> {});
        assertThat(campaign.singles()).extracting(run -> run.fault().kind()).containsOnly(FaultKind.SENDER_OPEN);
        assertThat(campaign.pairRuns()).as("three silent faults are left").isEqualTo(2 * 3);
    }

    @Test
    void shouldNotCallOverpressureFoundBeforeHarm() {
        Campaign campaign = new FaultCampaign(
                        TestBuilds.demonstration(),
                        1,
                        List.of(FaultKind.REGULATOR_STUCK_SHUT, FaultKind.AIR_IN_OIL),
                        List.of(Phase.CRUISING))
                .run(() -> {});
        assertThat(campaign.singles().get(0).effect()).contains("nothing bursts");
        assertThat(campaign.singles().get(2).effect()).doesNotContain("nothing bursts");
        assertThat(campaign.coverage().get(0).foundBeforeHarm()).isEqualTo(1);
        assertThat(campaign.coverage().get(0).runsBeforeHarm()).isEqualTo(2);
    }

    /** A pump without load coasts long and feeds its own voltage back: no relay is to blame for that. */
    @Test
    void shouldBlameNoRelayForAPumpThatRunsWithoutLoad() {
        Campaign campaign = new FaultCampaign(
                        TestBuilds.demonstration(),
                        1,
                        List.of(
                                FaultKind.AIR_IN_OIL,
                                FaultKind.SUCTION_BLOCKED,
                                FaultKind.PUMP_DRY,
                                FaultKind.PUMP_WORN,
                                FaultKind.HOSE_LEAK),
                        List.of(Phase.KEY_ON_PRIME, Phase.CRUISING))
                .run(() -> {});
        List<String> relayCodes = List.of("P27A1", "P17A1", "P2797", "P1797", "P1798", "P1799");
        assertThat(campaign.singles())
                .allSatisfy(run -> assertThat(run.codes()).as(run.toString()).doesNotContainAnyElementsOf(relayCodes));
        assertThat(campaign.selfTest())
                .allSatisfy(finding ->
                        assertThat(finding.codes()).as(finding.toString()).doesNotContainAnyElementsOf(relayCodes));
        assertThat(campaign.selfTest()).anyMatch(finding -> finding.codes().contains("P0C27"));
    }

    @Test
    void shouldTellTheClaimedRunsThatNoCodeTells() {
        Campaign campaign = new FaultCampaign(
                        TestBuilds.demonstration(),
                        1,
                        List.of(FaultKind.BUS_DROPOUT, FaultKind.SENDER_OPEN),
                        List.of(Phase.KEY_ON_PRIME, Phase.STANDING_IN_GEAR))
                .run(() -> {});
        assertThat(campaign.withoutCode())
                .allMatch(run -> run.fault().kind() == FaultKind.BUS_DROPOUT)
                .extracting(FaultRun::phase)
                .containsExactly(Phase.KEY_ON_PRIME, Phase.KEY_ON_PRIME, Phase.STANDING_IN_GEAR);
        assertThat(campaign.withoutCode().stream().map(campaign::holdPressureLost))
                .containsExactly(false, false, true);
    }

    @Test
    void shouldClaimAUnitThatRestartsWithTheKeyOffInARollingCar() {
        for (double oilC : new double[] {-20, 120}) {
            FaultRun run = campaign(TestBuilds.demonstration())
                    .run(FaultKind.UNIT_RESET, Phase.KEY_OFF_ROLLING, oilC, moment -> true);
            assertThat(run.outcome()).isEqualTo(Outcome.NOTICED_IN_TIME);
            assertThat(run.claimed()).isTrue();
            assertThat(run.codes()).containsExactly("P1607");
            assertThat(run.lowestPressurePa()).isGreaterThan(4e5);
        }
    }

    @Test
    void shouldNotTakeForANoticeWhatTheHealthyCarWaitsForToo() {
        // In this drive the healthy car waits for drive at each engagement; a contact that carries nothing changes that
        // by nothing.
        FaultRun run = campaign(TestBuilds.demonstration())
                .run(FaultKind.STANDBY_CONTACT_BOUNCING, Phase.CREEPING, 120, moment -> true);
        assertThat(run.outcome()).isEqualTo(Outcome.HARMLESS);
        assertThat(run.permission()).isEqualTo(DrivePermission.GRANTED);
    }
}
