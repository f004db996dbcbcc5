package linehold.simulator.window;

import static org.assertj.core.api.Assertions.assertThat;

import linehold.controller.calibration.Calibration;
import linehold.simulator.EditedBuild;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.build.Gear;
import linehold.simulator.drive.Drive;
import linehold.simulator.run.ClosedLoop;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class StopTrialTest {
    private static final double RPM = Math.PI / 30;

    private static double lowestPa(Build tuned, Stop stop, double oilC) {
        double[] lowest = {Double.POSITIVE_INFINITY};
        new ClosedLoop(tuned, oilC, 1).run(stop.drive(), moment -> {
            lowest[0] = moment.timeS >= stop.startS() ? Math.min(lowest[0], moment.lowestPressurePa) : lowest[0];
            return true;
        });
        return lowest[0];
    }

    /** Forty places of the teeth, run to the end, find hardly less than the trial's few. */
    @ParameterizedTest
    @CsvSource({"demonstration, 120, 15000, 800", "demonstration, 100, 4500, 370", "rule-of-thumb, 100, 1500, 450"})
    void shouldMeetTheWorstPlaceOfTheTeethWithAFewTries(String name, double oilC, double rate, double onRpm) {
        Build build = name.equals("demonstration") ? Builds.demonstration() : Builds.ruleOfThumb();
        StopTrial trial = new StopTrial(build, Setting.ALONE, oilC, LookAhead.NONE);
        double found = trial.lowestPa(rate * RPM, onRpm * RPM);
        double off = Tuning.leastOffRadPerS(build.calibration(), onRpm * RPM);
        Build tuned = Tuning.of(build, onRpm * RPM, off, Setting.ALONE.aids(build), LookAhead.NONE);
        Calibration calibration = tuned.calibration();
        double worst = Double.POSITIVE_INFINITY;
        for (int i = 0; i < 40; i++) {
            Stop stop = Stop.of(
                    rate * RPM, Gear.FIRST, calibration, StopTrial.handOverRadPerS(build, oilC), i / 40.0, false);
            worst = Math.min(worst, lowestPa(tuned, stop, oilC));
        }
        assertThat(found).isLessThan(worst + 0.05e5);
    }

    @ParameterizedTest
    @CsvSource({"15000, 120", "4500, 120", "300, 100", "1500, 60"})
    void shouldFindTheSpeedBelowWhichAStopIsLost(double rate, double oilC) {
        StopTrial trial = new StopTrial(Builds.demonstration(), Setting.ALONE, oilC, LookAhead.NONE);
        double lowest = SpeedSearch.lowest(trial, rate * RPM, Double.NaN);
        assertThat(trial.holds(rate * RPM, lowest)).isTrue();
        assertThat(lost(trial, rate, lowest)).isNull();
        assertThat(trial.holds(rate * RPM, lowest - SpeedSearch.STEP_RAD_PER_S)).isFalse();
        assertThat(lost(trial, rate, lowest - 2 * SpeedSearch.STEP_RAD_PER_S)).isNotNull();
        // Wherever the search starts.
        assertThat(SpeedSearch.lowest(trial, rate * RPM, 2000 * RPM)).isEqualTo(lowest);
        assertThat(SpeedSearch.lowest(trial, rate * RPM, 110 * RPM)).isEqualTo(lowest);
    }

    private static Drive lost(StopTrial trial, double rate, double onRadPerS) {
        double off = Tuning.leastOffRadPerS(Builds.demonstration().calibration(), onRadPerS);
        return trial.lost(rate * RPM, onRadPerS, off);
    }

    @Test
    void shouldSayWhereNoSpeedKeepsTheStop() {
        StopTrial trial = new StopTrial(Builds.weak(), Setting.ALONE, 120, LookAhead.NONE);
        assertThat(SpeedSearch.lowest(trial, 300 * RPM, Double.NaN)).isNaN();
    }

    /** With a low regulator pressure in reverse, which leaves less oil in the line, reverse asks for the most. */
    @Test
    void shouldSearchReverseToo() {
        Build low = EditedBuild.withoutSpreads("  set-reverse: 14 bar", "  set-reverse: 5 bar");
        double asShipped = SpeedSearch.lowest(
                new StopTrial(Builds.demonstration(), Setting.ALONE, 60, LookAhead.NONE), 4500 * RPM, Double.NaN);
        double lowReverse =
                SpeedSearch.lowest(new StopTrial(low, Setting.ALONE, 60, LookAhead.NONE), 4500 * RPM, Double.NaN);
        assertThat(lowReverse).isGreaterThan(asShipped + 30 * RPM);
    }

    /** Up to what the pump's flow carries the line holds; beyond it does not, however early the pump starts. */
    @ParameterizedTest
    @CsvSource({"120, 875", "-20, 875", "120, 3000"})
    void shouldKeepTheLineWhileRollingBackOnlyAsFarAsThePumpCarriesIt(double oilC, double onRpm) {
        Build build = Builds.demonstration();
        double most = new SteadyState(build, oilC).rollBackRadPerS(4e5);
        StopTrial trial = new StopTrial(build, Setting.ALONE, oilC, LookAhead.NONE);
        assertThat(trial.rollingBackPa(400 * RPM, onRpm * RPM, 0.95 * most)).isGreaterThan(4e5);
        assertThat(trial.rollingBackPa(400 * RPM, onRpm * RPM, 1.1 * most)).isLessThan(4e5);
    }

    @Test
    void shouldAskForMoreTheFewerPulsesThePickupHas() {
        double fine = SpeedSearch.lowest(
                new StopTrial(Builds.demonstration(), Setting.ALONE, 100, LookAhead.NONE), 1500 * RPM, Double.NaN);
        double coarse = SpeedSearch.lowest(
                new StopTrial(Builds.ruleOfThumb(), Setting.ALONE, 100, LookAhead.NONE), 1500 * RPM, Double.NaN);
        assertThat(coarse).isGreaterThan(fine + 100 * RPM);
    }

    @Test
    void shouldNeedLessWithEveryAidThatSeesTheStopComing() {
        Build build = Builds.demonstration();
        LookAhead ahead = new LookAhead(new double[] {120}, new double[] {250 * RPM}, new double[] {0.08});
        double alone = SpeedSearch.lowest(new StopTrial(build, Setting.ALONE, 120, ahead), 4500 * RPM, Double.NaN);
        for (Setting setting : new Setting[] {Setting.FALLING_SPEED, Setting.BRAKE, Setting.FITTED}) {
            double with = SpeedSearch.lowest(new StopTrial(build, setting, 120, ahead), 4500 * RPM, Double.NaN);
            assertThat(with).as(setting.title()).isLessThan(alone);
        }
    }
}
