package linehold.controller.switching;

import static org.assertj.core.api.Assertions.assertThat;

import linehold.controller.Requirement;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@Requirement("LH-SW-6")
class CarrySpeedTest {
    private static final double RPM = Math.PI / 30;
    private final Calibration.Builder builder = Calibration.builder();

    /** At 100 °C: carry speed 185 rpm, lead time 90 ms, and one pulse at 1000 rpm is 15 ms: 815 rpm in 105 ms. */
    @ParameterizedTest
    @CsvSource({"-7761, false", "-7763, true", "0, false", "7763, false", "NaN, false"})
    void shouldBeNearWhenTheFallReachesItWithinTheLeadTime(double rpmPerS, boolean near) {
        assertThat(new CarrySpeed(builder.build()).near(1000 * RPM, rpmPerS * RPM, 100))
                .isEqualTo(near);
    }

    @Test
    void shouldTakeTheLargestCarrySpeedAndLeadTimeWhenOilTemperatureIsUnknown() {
        CarrySpeed carrySpeed = new CarrySpeed(builder.build());

        // 750 rpm to go; 0.25 s + 15 ms: 2830 rpm/s.
        assertThat(carrySpeed.near(1000 * RPM, -2829 * RPM, Double.NaN)).isFalse();
        assertThat(carrySpeed.near(1000 * RPM, -2831 * RPM, Double.NaN)).isTrue();
    }

    @Test
    void shouldWaitLongerForTheEdgesOfACoarserPickup() {
        CarrySpeed carrySpeed =
                new CarrySpeed(builder.set(Key.PULSES_PER_REVOLUTION, 1).build());

        // 815 rpm in 90 + 60 ms.
        assertThat(carrySpeed.near(1000 * RPM, -5432 * RPM, 100)).isFalse();
        assertThat(carrySpeed.near(1000 * RPM, -5434 * RPM, 100)).isTrue();
    }

    @Test
    void shouldBeNearWhenFallingBelowItOrStandingAlready() {
        CarrySpeed carrySpeed = new CarrySpeed(builder.build());

        assertThat(carrySpeed.near(100 * RPM, -1, 100)).isTrue();
        assertThat(carrySpeed.near(0, -1, 100)).isTrue();
    }

    @Test
    void shouldPredictNothingWhenSwitchedOff() {
        CarrySpeed off =
                new CarrySpeed(builder.set(Key.FALLING_SPEED_PREDICTION, false).build());

        assertThat(off.near(1000 * RPM, -20_000 * RPM, 100)).isFalse();
    }
}
