package linehold.controller.safety;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.Requirement;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Bands of the default calibration at 12 V: none up to 0.3 A, dry below 3 A, stalled from 64 A. */
@Requirement("LH-RL-4")
class PumpCurrentCheckTest {
    private static final double TO_BUS = FeedBench.BUS / 12;
    private final FeedBench bench = new FeedBench(true, true);

    private static Calibration.Builder measured() {
        return Calibration.builder().set(Key.STANDBY_RELAY_FITTED, true).set(Key.PUMP_CURRENT_FITTED, true);
    }

    private FeedBench draws(double amps) {
        bench.ampsWhileFed = amps;
        return bench;
    }

    @Test
    void shouldSayNothingOfAHealthyPump() {
        bench.tested();
        for (double amps : new double[] {3.3, 12, 25, 41, 68}) {
            draws(amps).run(10);
        }
        assertThat(bench.codes.stored()).isZero();
        assertThat(bench.codes.active()).isZero();
    }

    @Test
    void shouldSayNothingWhereCurrentIsNotMeasured() {
        FeedBench blind = new FeedBench(true, false);
        blind.ampsWhileFed = 0;
        blind.tested().run(10);
        assertThat(blind.codes.active()).isZero();
    }

    @ParameterizedTest
    @CsvSource({"0.29, true", "0.31, false"})
    void shouldFindAMotorOrWireThatIsOpenUnderVoltage(double ampsAt12V, boolean open) {
        bench.tested().pump(false).run(1);
        bench.signs.pressurePa = 3e5;
        draws(ampsAt12V * TO_BUS).pump(true).run(0.3);
        assertThat(bench.active(TroubleCode.PUMP_CURRENT_NONE)).isFalse();
        bench.run(0.02);
        assertThat(bench.active(TroubleCode.PUMP_CURRENT_NONE)).isEqualTo(open);
        assertThat(bench.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isFalse();
        assertThat(bench.feed.mainOn()).isTrue();
    }

    @Test
    void shouldTakeNominalVoltageWhereTheBusIsNotMeasured() {
        bench.tested();
        bench.signs.busVolts = Double.NaN;
        bench.signs.pressurePa = 3e5;
        bench.ampsWhileFed = 0.31;
        bench.mainReadbackBroken = false;
        for (int i = 0; i < 200; i++) {
            bench.nowNs += 5_000_000;
            bench.signs.mainContactVolts = 12;
            bench.signs.standbyContactVolts = 12;
            bench.signs.amps = i < 100 ? 0.31 : 0.29;
            bench.feed.update(bench.nowNs, bench.signs);
            bench.feed.report(bench.codes);
            if (i < 100) {
                assertThat(bench.codes.active()).isZero();
            }
        }
        assertThat(bench.active(TroubleCode.PUMP_CURRENT_NONE)).isTrue();
    }

    @Test
    void shouldLeaveAMissingFeedToTheRelays() {
        bench.tested();
        bench.fuseBlown = true;
        bench.run(2);
        assertThat(bench.active(TroubleCode.PUMP_CURRENT_NONE)).isFalse();
        assertThat(bench.active(TroubleCode.PUMP_FEED_LOST)).isTrue();
    }

    @ParameterizedTest
    @CsvSource({"0, 0.12, 0.02", "5e5, 1, 0.12"})
    void shouldTakeADeadSensorForWhatItIsWhenPressureRisesOrHoldsAtStandstill(
            double beforePa, double silentS, double foundS) {
        bench.sensorShows = 0.0;
        bench.signs.pressurePa = beforePa;
        bench.keyOff().keyOn().run(silentS);
        assertThat(bench.codes.active()).isZero();
        bench.signs.pressurePa = 5e5;
        bench.run(foundS);
        assertThat(bench.codes.active()).isEqualTo(TroubleCode.PUMP_CURRENT_SENSOR_LOST.bit());

        // Set aside until key-off: what it shows then counts for nothing.
        bench.sensorShows = 70.0;
        bench.signs.pressurePa = 3e5;
        bench.run(5);
        assertThat(bench.codes.active()).isEqualTo(TroubleCode.PUMP_CURRENT_SENSOR_LOST.bit());
        bench.sensorShows = null;
        bench.keyOff().tick();
        assertThat(bench.codes.active()).isZero();
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, -1, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
    void shouldSetASensorAsideThatShowsTheImpossible(double shown) {
        bench.tested();
        bench.sensorShows = shown;
        bench.run(0.3);
        assertThat(bench.codes.active()).isZero();
        bench.run(0.01);
        assertThat(bench.codes.active()).isEqualTo(TroubleCode.PUMP_CURRENT_SENSOR_LOST.bit());
        bench.run(5);
        assertThat(bench.codes.active()).isEqualTo(TroubleCode.PUMP_CURRENT_SENSOR_LOST.bit());
    }

    @Test
    void shouldAllowASensorItsZeroError() {
        bench.tested().pump(false);
        bench.sensorShows = -0.29;
        bench.run(5);
        bench.sensorShows = 0.29;
        bench.run(5);
        assertThat(bench.codes.active()).isZero();
    }

    @Test
    void shouldSetASensorAsideThatShowsCurrentWithoutVoltage() {
        bench.tested().pump(false).run(1);
        bench.sensorShows = 12.0;
        bench.run(0.3);
        assertThat(bench.codes.active()).isZero();
        bench.run(0.01);
        assertThat(bench.codes.active()).isEqualTo(TroubleCode.PUMP_CURRENT_SENSOR_LOST.bit());
    }

    @Test
    void shouldLeaveAWeldedContactsCurrentAlone() {
        bench.tested();
        bench.mainSticks = true;
        bench.pump(false).run(3);
        assertThat(bench.codes.active()).isEqualTo(TroubleCode.MAIN_RELAY_WELDED.bit());
    }

    @ParameterizedTest
    @CsvSource({"2.9, 3.9e5, true", "2.9, NaN, true", "3.1, 3.9e5, false", "2.9, 4e5, false"})
    void shouldFindAPumpThatRunsDryWhenCurrentAndPressureStayLow(double ampsAt12V, double pressurePa, boolean dry) {
        bench.tested();
        bench.signs.pressurePa = pressurePa;
        draws(ampsAt12V * TO_BUS).run(3);
        assertThat(bench.active(TroubleCode.PUMP_DRY)).isFalse();
        bench.run(0.02);
        assertThat(bench.active(TroubleCode.PUMP_DRY)).isEqualTo(dry);
        bench.signs.pressurePa = 3e5;
        draws(12).run(1.9);
        assertThat(bench.active(TroubleCode.PUMP_DRY)).isEqualTo(dry);
        bench.run(0.2);
        assertThat(bench.active(TroubleCode.PUMP_DRY)).isFalse();
    }

    @Test
    void shouldNotJudgeInrushBeforeTheSpinUpTimeIsOver() {
        bench.tested().pump(false).run(1);
        draws(75).pump(true).run(0.3);
        draws(12).run(5);
        assertThat(bench.codes.stored()).isZero();
        assertThat(bench.codes.active()).isZero();
    }

    @ParameterizedTest
    @CsvSource({"60, 0.6", "0, 0.95", "-20, 1.3", "NaN, 1.3"})
    void shouldFindAPumpThatStillDrawsItsStallCurrentAfterTheSpinUpTimeOfThisOil(double oilC, double seconds) {
        bench.tested().pump(false).run(1);
        bench.signs.oilTemperatureC = oilC;
        draws(64.1 * TO_BUS).pump(true).tick();
        double found = bench.secondsUntil(() -> bench.active(TroubleCode.PUMP_STALLED));
        assertThat(found).isCloseTo(seconds, within(0.0051));
        assertThat(bench.feed.mainOn()).isTrue();
        draws(12).run(1.9);
        assertThat(bench.active(TroubleCode.PUMP_STALLED)).isTrue();
        bench.run(0.2);
        assertThat(bench.active(TroubleCode.PUMP_STALLED)).isFalse();
    }

    @Test
    void shouldNotCallAPumpStalledThatHoldsPressureAtStandstill() {
        bench.tested();
        bench.signs.pressurePa = 5e5;
        draws(75).run(5);
        assertThat(bench.codes.active()).isZero();
    }

    @Test
    void shouldNeverRestAStalledPumpThatTheLineMayNeed() {
        bench.tested();
        bench.signs.pressurePa = 1e5;
        draws(75);
        for (int i = 0; i < 4000; i++) {
            bench.tick();
            assertThat(bench.feed.mainOn()).isTrue();
        }
        assertThat(bench.active(TroubleCode.PUMP_STALLED)).isTrue();
    }

    @Test
    void shouldRestAndRetryAStalledPumpAStatedNumberOfTimesWhileTheInternalPumpCarries() {
        bench.tested();
        bench.signs.internalPumpCarries = true;
        draws(75);
        int rests = 0;
        boolean onBefore = true;
        double offS = 0;
        for (int i = 0; i < 6000; i++) {
            bench.tick();
            boolean on = bench.feed.mainOn();
            rests += onBefore && !on ? 1 : 0;
            offS += on ? 0 : FeedBench.TICK_S;
            onBefore = on;
        }
        assertThat(rests).isEqualTo(3);
        assertThat(offS).isCloseTo(3 * 2, within(0.02));
        assertThat(bench.feed.mainOn()).isTrue();
        assertThat(bench.active(TroubleCode.PUMP_STALLED)).isTrue();

        // Seen running, it has all its retries again.
        draws(12).run(3);
        assertThat(bench.active(TroubleCode.PUMP_STALLED)).isFalse();
        draws(75);
        assertThat(bench.secondsUntil(() -> !bench.feed.mainOn())).isLessThan(1);
    }

    @Test
    void shouldEndARestInTheSameTickWhenTheInternalPumpCarriesNoLonger() {
        bench.tested();
        bench.signs.internalPumpCarries = true;
        draws(75);
        bench.secondsUntil(() -> !bench.feed.mainOn());
        bench.run(0.5);
        assertThat(bench.feed.mainOn()).isFalse();
        bench.signs.internalPumpCarries = false;
        bench.tick();
        assertThat(bench.feed.mainOn()).isTrue();
    }

    @Test
    void shouldForgetEverythingAtKeyOff() {
        bench.tested();
        bench.signs.internalPumpCarries = true;
        bench.signs.pressurePa = 3e5;
        draws(75);
        bench.secondsUntil(() -> !bench.feed.mainOn());
        draws(0.1).run(3);
        draws(2).run(5);
        assertThat(bench.active(TroubleCode.PUMP_STALLED)).isTrue();
        assertThat(bench.active(TroubleCode.PUMP_CURRENT_NONE)).isTrue();
        assertThat(bench.active(TroubleCode.PUMP_DRY)).isTrue();
        bench.keyOff().tick();
        assertThat(bench.codes.active()).isZero();
    }

    @Test
    void shouldHaveAllRetriesAgainAfterKeyOff() {
        bench.tested();
        bench.signs.internalPumpCarries = true;
        draws(75).run(30);
        assertThat(bench.feed.mainOn()).isTrue();
        bench.signs.internalPumpCarries = false;
        bench.tested();
        bench.signs.internalPumpCarries = true;
        assertThat(bench.secondsUntil(() -> !bench.feed.mainOn())).isLessThan(1);
    }

    @Test
    void shouldRestNoPumpWithoutRetries() {
        FeedBench none = new FeedBench(measured().set(Key.PUMP_STALL_RETRIES, 0).build());
        none.tested();
        none.signs.internalPumpCarries = true;
        none.ampsWhileFed = 75;
        for (int i = 0; i < 1000; i++) {
            none.tick();
            assertThat(none.feed.mainOn()).isTrue();
        }
    }
}
