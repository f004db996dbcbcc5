package linehold.controller.safety;

import static org.assertj.core.api.Assertions.assertThat;

import linehold.controller.Requirement;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PrimeAndSenderMotionTest {
    private static final long MS = 1_000_000;
    private final Calibration calibration = Calibration.builder().build();
    private final PrimeCheck prime = new PrimeCheck(calibration);
    private final SenderMotionCheck motion = new SenderMotionCheck(calibration);

    private void prime(long atMs, boolean priming, double pressurePa, double oilC) {
        prime.update(atMs * MS, priming, pressurePa, oilC, true);
    }

    @ParameterizedTest
    @CsvSource({"20, 3000", "60, 3000", "-20, 6000", "0, 4500", "NaN, 6000"})
    @Requirement("LH-PR-3")
    void shouldFailAPrimeThatTakesLongerThanThisOilAllows(double oilC, long limitMs) {
        prime(0, false, 0, oilC);
        prime(10, true, 0, oilC);
        prime(9 + limitMs, true, 3.99e5, oilC);
        assertThat(prime.failed()).isFalse();
        prime(10 + limitMs, true, 3.99e5, oilC);
        assertThat(prime.failed()).isTrue();
    }

    @Test
    @Requirement("LH-PR-3")
    void shouldGiveAFailedPrimeBackOnceReturnedPressureHasLastedAndTheDriverLetsGo() {
        prime(0, true, 0, 60);
        prime(3000, true, 0, 60);
        prime(3005, true, 0, 60);
        prime.update(4000 * MS, false, 4e5, 60, false);
        prime.update(6000 * MS, false, 4e5, 60, false);
        assertThat(prime.failed()).isTrue();
        prime.update(6005 * MS, false, 4e5, 60, true);
        assertThat(prime.failed()).isFalse();
    }

    @Test
    @Requirement("LH-PR-3")
    void shouldStartTheTimeAnewWithEveryPrimeAndForgetAtKeyOff() {
        prime(0, true, 0, 60);
        prime(2000, false, 0, 60);
        prime(2005, true, 0, 60);
        prime(5000, true, 0, 60);
        assertThat(prime.failed()).isFalse();
        prime(5005, true, 0, 60);
        assertThat(prime.failed()).isTrue();
        prime(5015, false, 0, 60);
        assertThat(prime.failed()).isTrue();
        prime.clearAtKeyOff();
        assertThat(prime.failed()).isFalse();
    }

    @Test
    @Requirement("LH-PR-3")
    void shouldFailNoPrimeWhilePressureIsUnknown() {
        prime(0, true, Double.NaN, 60);
        prime(9000, true, Double.NaN, 60);
        prime(9005, true, Double.NaN, 60);
        assertThat(prime.failed()).isFalse();
    }

    /** A prime of 100 ms test time at a pressure before and a pressure after it. */
    private void prime(double beforePa, double afterPa, SelfTestState result, long untilMs) {
        motion.watchPrime(0, beforePa, false, SelfTestState.NOT_DONE);
        for (long ms = 5; ms <= 100; ms += 5) {
            motion.watchPrime(ms * MS, beforePa, true, SelfTestState.RUNNING);
        }
        for (long ms = 105; ms <= untilMs; ms += 5) {
            motion.watchPrime(ms * MS, afterPa, false, result);
        }
    }

    @ParameterizedTest
    @CsvSource({
        "5e5, 5e5, PASSED, 1095, false", // not yet
        "5e5, 5e5, PASSED, 1100, true",
        "5e5, 5.29e5, PASSED, 1100, true",
        "5e5, 4.71e5, PASSED, 1100, true",
        "5e5, 5.31e5, PASSED, 1100, false",
        "5e5, 4.69e5, PASSED, 1100, false",
        "5e5, 5e5, NOT_DONE, 2000, false", // a turning shaft may keep pressure
        "5e5, 5e5, FAILED, 2000, false", // a welded relay never let the pump rest
        "0, 0, PASSED, 9000, false", // no pressure: LH-PR-3 says so
        "NaN, NaN, PASSED, 9000, false",
        "NaN, 5e5, PASSED, 9000, false"
    })
    @Requirement("LH-PR-4")
    void shouldSuspectASenderThatShowsPressureButDidNotMoveOverAPrime(
            double beforePa, double afterPa, SelfTestState result, long untilMs, boolean suspect) {
        prime(beforePa, afterPa, result, untilMs);
        assertThat(motion.suspect()).isEqualTo(suspect);
        motion.clearAtKeyOff();
        assertThat(motion.suspect()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({"PASSED", "FAILED", "NOT_DONE"})
    @Requirement("LH-PR-4")
    void shouldNotMindTheTestOfTheKeyCycleBefore(SelfTestState before) {
        prime(0, 8e5, before, 5000);
        motion.watchPrime(6000 * MS, 8e5, true, before);
        assertThat(motion.suspect()).isFalse();
        motion.watchPrime(6005 * MS, 8e5, true, SelfTestState.RUNNING);
        motion.watchPrime(7005 * MS, 8e5, false, SelfTestState.PASSED);
        assertThat(motion.suspect()).isTrue();
    }

    @Test
    @Requirement("LH-PR-4")
    void shouldJudgeAPrimeOnlyOnce() {
        prime(0, 8e5, SelfTestState.PASSED, 1200);
        motion.watchPrime(60_000 * MS, 8e5, false, SelfTestState.PASSED);
        assertThat(motion.suspect()).isFalse();
        // A second prime starts from its own pressure.
        motion.watchPrime(70_000 * MS, 8e5, true, SelfTestState.PASSED);
        motion.watchPrime(70_005 * MS, 8e5, true, SelfTestState.RUNNING);
        motion.watchPrime(71_005 * MS, 8e5, false, SelfTestState.PASSED);
        assertThat(motion.suspect()).isTrue();
    }

    @ParameterizedTest
    @CsvSource({"8e5, true", "8.29e5, true", "8.31e5, false", "7.69e5, false", "NaN, false"})
    @Requirement("LH-PR-4")
    void shouldSuspectASenderThatDoesNotMoveOverAHandOver(double laterPa, boolean suspect) {
        motion.watchHandOver(0, 2e5, true, false);
        motion.watchHandOver(5 * MS, 8e5, true, false); // counts from the last moment at rest
        motion.watchHandOver(3000 * MS, laterPa, false, false);
        motion.watchHandOver(4000 * MS, 8e5, false, true);
        motion.watchHandOver(4995 * MS, 8e5, false, true);
        assertThat(motion.suspect()).isFalse();
        motion.watchHandOver(5000 * MS, 8e5, false, true);
        assertThat(motion.suspect()).isEqualTo(suspect);
    }

    @Test
    @Requirement("LH-PR-4")
    void shouldJudgeAHandOverOnlyFromStandstillAndOnlyOnce() {
        motion.watchHandOver(0, 8e5, false, true);
        motion.watchHandOver(9000 * MS, 8e5, false, true);
        assertThat(motion.suspect()).isFalse();
        motion.watchHandOver(10_000 * MS, 5e5, true, false);
        motion.watchHandOver(11_000 * MS, 8e5, false, true);
        motion.watchHandOver(11_900 * MS, 8e5, false, false);
        motion.watchHandOver(12_000 * MS, 5e5, false, true);
        motion.watchHandOver(13_000 * MS, 5e5, false, true);
        assertThat(motion.suspect()).isFalse();
        motion.clearAtKeyOff();
        motion.watchHandOver(20_000 * MS, 5e5, false, true);
        assertThat(motion.suspect()).isFalse();
    }

    @Test
    @Requirement("LH-PR-4")
    void shouldSuspectNothingWithABandOfZero() {
        SenderMotionCheck off = new SenderMotionCheck(
                Calibration.builder().set(Key.SENDER_STUCK_BAND, 0).build());
        off.watchHandOver(0, 8e5, true, false);
        off.watchHandOver(5 * MS, 8e5, false, true);
        off.watchHandOver(2000 * MS, 8e5, false, true);
        assertThat(off.suspect()).isFalse();
    }
}
