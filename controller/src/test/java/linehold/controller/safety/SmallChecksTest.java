package linehold.controller.safety;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.Requirement;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import org.junit.jupiter.api.Test;

/** The checks that need only a few lines each. */
class SmallChecksTest {
    private static final long MS = 1_000_000;
    private final Calibration.Builder builder = Calibration.builder();

    @Test
    @Requirement("LH-TK-4")
    void shouldCountALateTickAndReportAVeryLateOneUntilKeyOff() {
        LateTickCheck check = new LateTickCheck(builder.build());
        check.update(10 * MS);
        assertThat(check.lateTicks()).isZero();
        check.update(10 * MS + 1);
        check.update(50 * MS);
        assertThat(check.lateTicks()).isEqualTo(2);
        assertThat(check.active()).isFalse();
        check.update(50 * MS + 1);
        assertThat(check.active()).isTrue();
        check.update(5 * MS);
        assertThat(check.active()).isTrue();
        check.clearAtKeyOff();
        assertThat(check.active()).isFalse();
        assertThat(check.lateTicks()).isEqualTo(3);
    }

    @Test
    @Requirement("LH-SP-2")
    void shouldReportTooManyRejectedEdgesForAsLongAsTheyLieWithinAMinute() {
        NoisyPickupCheck check = new NoisyPickupCheck(
                builder.set(Key.REJECTED_EDGES_PER_MINUTE, 5).build());
        check.update(0, 3);
        check.update(1000 * MS, 2);
        assertThat(check.active()).isFalse();
        check.update(2000 * MS, 1);
        assertThat(check.active()).isTrue();
        check.update(59_999 * MS, 0);
        assertThat(check.active()).isTrue();
        check.update(60_000 * MS, 0);
        assertThat(check.active()).isFalse();
    }

    @Test
    @Requirement("LH-SP-2")
    void shouldReportAnEndlessBurstAtOnce() {
        NoisyPickupCheck check = new NoisyPickupCheck(builder.build());
        check.update(0, 30);
        assertThat(check.active()).isFalse();

        NoisyPickupCheck burst = new NoisyPickupCheck(builder.build());
        burst.update(0, Integer.MAX_VALUE);
        assertThat(burst.active()).isTrue();
    }

    @Test
    @Requirement("LH-EL-1")
    void shouldReportABusThatIsOutOfBoundsForTheConfirmTime() {
        SupplyCheck check = new SupplyCheck(builder.build());
        check.update(0, 8.99);
        check.update(499 * MS, 8.99);
        assertThat(check.low()).isFalse();
        check.update(500 * MS, 8.99);
        assertThat(check.low()).isTrue();
        assertThat(check.high()).isFalse();
        check.update(600 * MS, 9);
        check.update(1099 * MS, 9);
        assertThat(check.low()).isTrue();
        check.update(1100 * MS, 9);
        assertThat(check.low()).isFalse();

        check.update(2000 * MS, 16);
        check.update(2600 * MS, 16.01);
        check.update(3100 * MS, 16.01);
        assertThat(check.high()).isTrue();
        assertThat(check.low()).isFalse();
    }

    @Test
    @Requirement("LH-EL-1")
    void shouldReportNothingOfABusThatIsNotMeasured() {
        SupplyCheck check = new SupplyCheck(builder.build());
        check.update(0, Double.NaN);
        check.update(1000 * MS, Double.NaN);
        assertThat(check.low() || check.high()).isFalse();
    }

    @Test
    @Requirement("LH-PR-5")
    void shouldLimitTorqueToTheWeakerElementAboveItsTouchPressure() {
        TorqueLimit limit = new TorqueLimit(builder.set(Key.FIRST_TORQUE_PER_PRESSURE, 4e-4)
                .set(Key.FIRST_TOUCH_PRESSURE, 1e5)
                .set(Key.TOP_TORQUE_PER_PRESSURE, 2e-4)
                .set(Key.TOP_TOUCH_PRESSURE, 0.5e5)
                .set(Key.REVERSE_TORQUE_PER_PRESSURE, 3e-4)
                .set(Key.REVERSE_TOUCH_PRESSURE, 0.9e5)
                .build());

        assertThat(limit.forwardNm(3e5)).isCloseTo(50, within(1e-9)); // first 80, top 50
        assertThat(limit.forwardNm(1.2e5)).isCloseTo(8, within(1e-9)); // first 8, top 14
        assertThat(limit.forwardNm(0.8e5)).isZero();
        assertThat(limit.reverseNm(2.9e5)).isCloseTo(60, within(1e-9));
        assertThat(limit.reverseNm(0.9e5)).isZero();
        assertThat(limit.reverseNm(-1e5)).isZero();
        assertThat(limit.forwardNm(Double.NaN)).isZero();
        assertThat(limit.reverseNm(Double.NaN)).isZero();
    }

    @Test
    @Requirement("LH-TK-3")
    void shouldStoreWhatWasActiveAndDeriveLampBuzzerAndReactions() {
        CodeStore codes = new CodeStore();
        assertThat(codes.wantsLamp() || codes.wantsBuzzer() || codes.wantsBothRelays() || codes.reducesDrive())
                .isFalse();

        double[] frame = new double[FrozenValue.values().length];
        codes.set(TroubleCode.SENDER_LOST, true);
        assertThat(codes.wantsLamp()).isTrue();
        assertThat(codes.wantsBuzzer() || codes.wantsBothRelays() || codes.reducesDrive())
                .isFalse();

        codes.set(TroubleCode.MAIN_RELAY_STUCK_OFF, true);
        assertThat(codes.wantsBothRelays()).isTrue();
        assertThat(codes.reducesDrive()).isFalse();

        codes.set(TroubleCode.PRESSURE_LOST_STANDING, true);
        assertThat(codes.wantsBuzzer() && codes.reducesDrive()).isTrue();

        codes.store(0, frame);
        codes.set(TroubleCode.MAIN_RELAY_STUCK_OFF, false);
        assertThat(codes.wantsBothRelays()).isTrue();
        codes.set(TroubleCode.PRESSURE_LOST_STANDING, false);
        codes.set(TroubleCode.SENDER_LOST, false);
        codes.store(1, frame);
        assertThat(codes.active()).isZero();
        assertThat(codes.stored())
                .isEqualTo(TroubleCode.SENDER_LOST.bit()
                        | TroubleCode.MAIN_RELAY_STUCK_OFF.bit()
                        | TroubleCode.PRESSURE_LOST_STANDING.bit());
    }

    @Test
    @Requirement("LH-TK-3")
    void shouldSelectCodesByTheirReactionAndSeverity() {
        long withheld = TroubleCode.PUMP_FEED_LOST.bit() | TroubleCode.PRIME_FAILED.bit();
        long reduced = withheld | TroubleCode.PRESSURE_LOST_MOVING.bit() | TroubleCode.PRESSURE_LOST_STANDING.bit();
        long doubted = reduced
                | TroubleCode.PUMP_CURRENT_NONE.bit()
                | TroubleCode.PUMP_DRY.bit()
                | TroubleCode.PUMP_STALLED.bit();
        assertThat(TroubleCode.reactingAtLeast(TroubleCode.Reaction.WITHHOLD_AT_STANDSTILL))
                .isEqualTo(withheld);
        assertThat(TroubleCode.reactingAtLeast(TroubleCode.Reaction.REDUCE_DRIVE))
                .isEqualTo(reduced);
        assertThat(TroubleCode.reactingAtLeast(TroubleCode.Reaction.DOUBT_PUMP)).isEqualTo(doubted);
        assertThat(TroubleCode.reactingAtLeast(TroubleCode.Reaction.BOTH_RELAYS))
                .isEqualTo(doubted
                        | TroubleCode.MAIN_RELAY_STUCK_OFF.bit()
                        | TroubleCode.MAIN_READBACK_LOST.bit()
                        | TroubleCode.STANDBY_READBACK_LOST.bit());
        assertThat(TroubleCode.severeAtLeast(TroubleCode.Severity.STOP)).isEqualTo(reduced);
        assertThat(TroubleCode.severeAtLeast(TroubleCode.Severity.WARNING))
                .isEqualTo((1L << TroubleCode.values().length) - 1);
        assertThat(TroubleCode.PRESSURE_LOST_MOVING.severity()).isEqualTo(TroubleCode.Severity.STOP);
    }
}
