package linehold.simulator.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import linehold.controller.switching.PumpState;
import linehold.simulator.TestBuilds;
import linehold.simulator.build.Build;
import linehold.simulator.build.Gear;
import linehold.simulator.drive.RowDrive;
import linehold.simulator.faults.HealthyRun.Tick;
import linehold.simulator.run.ClosedLoop;
import linehold.simulator.run.Engagement;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The drives of the campaign, driven by the healthy car. */
class PhasesTest {
    private final Build build = TestBuilds.demonstration();
    private final Phases phases = new Phases(build);

    private HealthyRun healthy(RowDrive drive, double oilC, FaultJudge judge) {
        HealthyRun run = new HealthyRun(drive, oilC, 0.005);
        new ClosedLoop(build, oilC, 1).run(drive, moment -> run.tick(moment) & judge.tick(moment));
        return run;
    }

    @ParameterizedTest
    @EnumSource
    void shouldFindEveryPhaseInTheHealthyRun(Phase phase) {
        for (double oilC : new double[] {-20, 120}) {
            RowDrive drive = phases.drives().get(phases.driveOf(phase));
            FaultJudge judge = new FaultJudge(build, List.of(), 0, 0);
            HealthyRun run = healthy(drive, oilC, judge);
            double startS = phases.startS(phase, run).orElseThrow();
            assertThat(startS).isBetween(0.0, drive.durationS() - 2);
            Tick at = run.ticks.get((int) Math.ceil(startS / 0.005));
            assertThat(isIn(phase, at))
                    .as(phase + " at " + startS + " s: " + at)
                    .isTrue();
        }
    }

    /** Plain words of each title. */
    private boolean isIn(Phase phase, Tick tick) {
        boolean engaged = tick.engagement() == Engagement.ENGAGED;
        double rpm = tick.shaftRadPerS() * 30 / Math.PI;
        return switch (phase) {
            case KEY_ON_PRIME -> tick.keyOn() && rpm == 0 && tick.state() == PumpState.PRIME && tick.timeS() < 3;
            case STANDING_IN_GEAR -> rpm == 0 && engaged && tick.gear() == Gear.FIRST;
            case CREEPING -> engaged && rpm > 0 && rpm < 700 && tick.torqueNm() > 5;
            case PULLING_AWAY -> engaged && rpm >= 0 && rpm < 700 && tick.torqueNm() > 150;
            case HAND_OVER_UP -> engaged && rpm > 700 && tick.state().pumpRuns();
            case CRUISING -> engaged && tick.gear() == Gear.TOP && !tick.state().pumpRuns();
            case GEAR_CHANGE -> tick.gear() == Gear.TOP && !engaged;
            case NORMAL_BRAKING -> tick.braking() && rpm > 1000 && tick.shaftSlopeRadPerS2() < 0;
            case PANIC_STOP -> tick.shaftSlopeRadPerS2() < -70 && rpm > 700;
            case HOLD_ON_HILL -> rpm == 0 && engaged && tick.torqueNm() > 30 && !tick.braking();
            case ROLL_BACK -> rpm < 0 && engaged && tick.gear() == Gear.FIRST;
            case REVERSING -> rpm > 0 && engaged && tick.gear() == Gear.REVERSE;
            case KEY_OFF_ROLLING -> !tick.keyOn() && rpm > 700;
        };
    }

    @ParameterizedTest
    @ValueSource(doubles = {-20, 120})
    void shouldBringTheHealthyCarThroughEveryDriveUnharmed(double oilC) {
        for (RowDrive drive : phases.drives()) {
            FaultJudge judge = new FaultJudge(build, List.of(), 0, 0);
            HealthyRun run = healthy(drive, oilC, judge);
            assertThat(run.codes).as(drive.name()).isZero();
            assertThat(judge.outcome()).as(drive.name()).isEqualTo(Outcome.HARMLESS);
            assertThat(judge.lowestMargin).as(drive.name()).isGreaterThanOrEqualTo(1.2);
        }
    }
}
