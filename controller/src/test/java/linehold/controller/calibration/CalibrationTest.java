package linehold.controller.calibration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.Requirement;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CalibrationTest {
    private static final double RPM = Math.PI / 30;

    @Test
    void shouldHoldEveryDefaultWhenNothingIsSet() {
        Calibration calibration = Calibration.builder().build();

        for (Key key : Key.values()) {
            if (key.shape() == Key.Shape.SCALAR) {
                assertThat(calibration.get(key)).isEqualTo(key.defaultValue());
                assertThat(calibration.at(key, 40)).isEqualTo(key.defaultValue());
            } else {
                assertThat(calibration.curveOilC(key)).containsExactly(key.defaultOilC());
                assertThat(calibration.curveValues(key)).containsExactly(key.defaultValues());
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"-60, 5", "-20, 5", "0, 3.1", "10, 2.15", "20, 1.2", "150, 1.2", "NaN, 5", "Infinity, 1.2"})
    @Requirement("LH-PR-2")
    void shouldDrawStraightLinesOverOilTemperatureAndStayFlatOutside(double oilC, double expected) {
        Calibration calibration = Calibration.builder().build();

        assertThat(calibration.at(Key.ENGAGEMENT_ALLOWANCE, oilC)).isCloseTo(expected, within(1e-12));
    }

    @Test
    void shouldTakeTheLargestValueOfACurveWhenTheOilTemperatureIsUnknown() {
        Calibration calibration = Calibration.builder()
                .setCurve(Key.CARRY_SPEED, new double[] {0, 50, 100}, new double[] {10, 30, 20})
                .build();

        assertThat(calibration.at(Key.CARRY_SPEED, Double.NaN)).isEqualTo(30);
        assertThat(calibration.at(Key.CARRY_SPEED, 75)).isEqualTo(25);
    }

    @Test
    void shouldCopyEveryValueIntoANewBuilderAndLeaveTheOldOneAlone() {
        Calibration first = Calibration.builder()
                .set(Key.SWITCH_ON_SPEED, 700 * RPM)
                .set(Key.SWITCH_OFF_SPEED, 900 * RPM)
                .setCurve(Key.CARRY_SPEED, new double[] {0, 50}, new double[] {10, 30})
                .build();
        long checksum = first.checksum();

        assertThat(first.toBuilder().build().checksum()).isEqualTo(checksum);

        Calibration second =
                first.toBuilder().set(Key.SWITCH_ON_SPEED, 600 * RPM).build();
        assertThat(second.get(Key.SWITCH_ON_SPEED)).isEqualTo(600 * RPM);
        assertThat(second.get(Key.SWITCH_OFF_SPEED)).isEqualTo(900 * RPM);
        assertThat(second.at(Key.CARRY_SPEED, 25)).isEqualTo(20);
        assertThat(first.checksum()).isEqualTo(checksum);
    }

    @Test
    void shouldTakeOneValueForACurveAsTheSameAtEveryTemperature() {
        Calibration calibration =
                Calibration.builder().set(Key.PUMP_LEAD_TIME, 0.1).build();

        assertThat(calibration.at(Key.PUMP_LEAD_TIME, -40)).isEqualTo(0.1);
        assertThat(calibration.at(Key.PUMP_LEAD_TIME, 120)).isEqualTo(0.1);
        assertThat(calibration.curveValues(Key.PUMP_LEAD_TIME)).containsExactly(0.1);
        assertThat(calibration.curveOilC(Key.PUMP_LEAD_TIME)).hasSize(1);
    }

    @Test
    void shouldGiveFlagsAndTimesInTheirOwnForm() {
        Calibration calibration =
                Calibration.builder().set(Key.NORMALLY_CLOSED_CONTACT, true).build();

        assertThat(calibration.is(Key.NORMALLY_CLOSED_CONTACT)).isTrue();
        assertThat(calibration.is(Key.STANDBY_RELAY_FITTED)).isFalse();
        assertThat(calibration.ns(Key.RELAY_READBACK_TIME)).isEqualTo(60_000_000);
        assertThatThrownBy(() -> calibration.get(Key.CARRY_SPEED)).hasMessageContaining("carry-speed");
        assertThatThrownBy(() -> calibration.is(Key.CONTROL_PERIOD)).hasMessageContaining("control-period");
        assertThatThrownBy(() -> calibration.ns(Key.HOLD_PRESSURE)).hasMessageContaining("hold-pressure");
        assertThatThrownBy(() -> calibration.curveValues(Key.HOLD_PRESSURE)).hasMessageContaining("hold-pressure");
        assertThatThrownBy(() -> calibration.curveOilC(Key.HOLD_PRESSURE)).hasMessageContaining("hold-pressure");
        assertThatThrownBy(() -> Calibration.builder().set(Key.HOLD_PRESSURE, true))
                .hasMessageContaining("hold-pressure");
    }

    @Test
    void shouldNotChangeWithTheArraysItWasMadeFrom() {
        double[] oilC = {0, 100};
        double[] values = {10, 20};
        Calibration.Builder builder = Calibration.builder().setCurve(Key.CARRY_SPEED, oilC, values);
        oilC[0] = 90;
        values[0] = 1;
        Calibration calibration = builder.build();
        calibration.curveValues(Key.CARRY_SPEED)[1] = 1;
        calibration.curveOilC(Key.CARRY_SPEED)[1] = 1;
        builder.set(Key.CARRY_SPEED, 5);

        assertThat(calibration.at(Key.CARRY_SPEED, 0)).isEqualTo(10);
        assertThat(calibration.at(Key.CARRY_SPEED, 100)).isEqualTo(20);
    }

    @ParameterizedTest
    @CsvSource({
        "MINIMUM_RUN_TIME, 0.4, 'minimum-run-time is 0.4 s, allowed is 0.5 s to 60 s'",
        "MINIMUM_RUN_TIME, 61, 'minimum-run-time is 61 s, allowed is 0.5 s to 60 s'",
        "MINIMUM_RUN_TIME, NaN, 'minimum-run-time is NaN s, allowed is 0.5 s to 60 s'",
        "PULSES_PER_REVOLUTION, 2.5, 'pulses-per-revolution is 2.5, allowed is a whole number'",
        "SENDER_FITTED, 0.5, 'sender-fitted is 0.5, allowed is a whole number'",
    })
    void shouldRefuseAValueOutOfBoundsNamingKeyValueAndRange(Key key, double value, String message) {
        CalibrationException refused = catchThrowableOfType(
                CalibrationException.class, () -> Calibration.builder().set(key, value));

        assertThat(refused).hasMessage(message);
        assertThat(refused.key()).isEqualTo(key);
    }

    @ParameterizedTest
    @CsvSource({"MINIMUM_RUN_TIME, 0.5", "MINIMUM_RUN_TIME, 60", "HELP_PRESSURE, 0"})
    void shouldTakeAValueOnItsBounds(Key key, double value) {
        assertThat(Calibration.builder().set(key, value).build().get(key)).isEqualTo(value);
    }

    @Test
    void shouldRefuseACurveThatIsNone() {
        Calibration.Builder builder = Calibration.builder();

        assertThatThrownBy(() -> builder.setCurve(Key.HOLD_PRESSURE, new double[] {0}, new double[] {4e5}))
                .isInstanceOf(CalibrationException.class)
                .hasMessage("hold-pressure is one value, not a curve");
        assertThatThrownBy(() -> builder.setCurve(Key.CARRY_SPEED, new double[] {}, new double[] {}))
                .hasMessageContaining("0 temperatures and 0 values");
        assertThatThrownBy(() -> builder.setCurve(Key.CARRY_SPEED, new double[] {0, 20}, new double[] {5}))
                .hasMessageContaining("2 temperatures and 1 values");
        assertThatThrownBy(() -> builder.setCurve(Key.CARRY_SPEED, new double[] {20, 20}, new double[] {5, 6}))
                .hasMessageContaining("20.0 °C where a higher one must follow");
        assertThatThrownBy(() -> builder.setCurve(Key.CARRY_SPEED, new double[] {Double.NaN}, new double[] {5}))
                .hasMessageContaining("NaN °C");
        assertThatThrownBy(() -> builder.setCurve(Key.CARRY_SPEED, new double[] {20}, new double[] {-1}))
                .hasMessageContaining("carry-speed is -9.5493 rpm, allowed is 0 rpm to 5000 rpm");
    }

    @ParameterizedTest
    @CsvSource({
        // switch-on and switch-off in rpm, pulses per revolution, edge resolution in µs
        "500, 600, 4, 100, true",
        "500, 550, 4, 100, true",
        "500, 549, 4, 100, false",
        "3000, 3060, 4, 100, false", // resolves 3060²·4·1e-4/60 = 62 rpm
        "3000, 3063, 4, 100, true",
        "3000, 3063, 8, 100, false",
        "3000, 3063, 4, 200, false",
    })
    @Requirement("LH-SW-3")
    void shouldRefuseAWindowThatThePickupCannotResolve(
            double onRpm, double offRpm, double pulses, double edgeMicros, boolean accepted) {
        Calibration.Builder builder = Calibration.builder()
                .set(Key.SWITCH_ON_SPEED, onRpm * RPM)
                .set(Key.SWITCH_OFF_SPEED, offRpm * RPM)
                .set(Key.BRAKE_SWITCH_ON_SPEED, 0)
                .set(Key.PULSES_PER_REVOLUTION, pulses)
                .set(Key.EDGE_TIME_RESOLUTION, edgeMicros * 1e-6);

        if (accepted) {
            assertThat(builder.build().get(Key.SWITCH_OFF_SPEED)).isEqualTo(offRpm * RPM);
        } else {
            assertThatThrownBy(builder::build)
                    .isInstanceOf(CalibrationException.class)
                    .hasMessageContaining("switch-off-speed")
                    .hasMessageContaining("must exceed by at least")
                    .hasMessageContaining("switch-on-speed (");
        }
    }

    /** Each row sets one key just within, then just beyond, what another key allows. */
    @ParameterizedTest
    @CsvSource({
        "HAND_OVER_PRESSURE, 4.3e5, HELP_PRESSURE, 4.2999e5, 4.3e5",
        "HAND_OVER_PRESSURE, 5e5, HOLD_PRESSURE, 5e5, 5.001e5",
        "SENDER_FULL_SCALE, 10e5, HAND_OVER_PRESSURE, 9.999e5, 10e5",
        "HOLD_PRESSURE, 3e5, FIRST_TOUCH_PRESSURE, 2.99e5, 3e5",
        "HOLD_PRESSURE, 3e5, TOP_TOUCH_PRESSURE, 2.99e5, 3e5",
        "HOLD_PRESSURE, 3e5, REVERSE_TOUCH_PRESSURE, 2.99e5, 3e5",
        "SENDER_ZERO_FRACTION, 0.1, SENDER_LEAST_FRACTION, 0.099, 0.1",
        "SENDER_MOST_FRACTION, 0.95, SENDER_FULL_SCALE_FRACTION, 0.949, 0.95",
        "CONTROL_PERIOD, 0.01, LATE_TICK_LIMIT, 0.02, 0.0199",
        "RELAY_READBACK_TIME, 0.015, CONTROL_PERIOD, 0.0149, 0.015",
        "SWITCH_ON_SPEED, 40, STANDSTILL_SPEED, 39.9, 40",
        "SWITCH_ON_SPEED, 40, CARRY_SPEED, 40, 40.1",
        "SWITCH_ON_SPEED, 40, BRAKE_SWITCH_ON_SPEED, 40, 39.9",
        "SWITCH_OFF_SPEED, 100, HIGHEST_SHAFT_SPEED, 121, 120.7",
    })
    void shouldRefuseASetThatContradictsItself(Key other, double otherValue, Key key, double within, double beyond) {
        double lowerHelp = other == Key.HAND_OVER_PRESSURE || key == Key.HAND_OVER_PRESSURE ? 4.2e5 : 2e5;
        Calibration.Builder builder = Calibration.builder()
                .set(Key.HELP_PRESSURE, lowerHelp)
                .set(Key.CARRY_SPEED, 20)
                .set(Key.SENDER_LOST_WIDENING, 10.4)
                .set(other, otherValue);

        assertThat(builder.set(key, within).build()).isNotNull();
        assertThatThrownBy(() -> builder.set(key, beyond).build())
                .isInstanceOf(CalibrationException.class)
                .hasMessageContaining(key.yamlName())
                .hasMessageContaining(other.yamlName());
    }

    @Test
    void shouldAllowTheBrakeSwitchToBeTurnedOff() {
        assertThat(Calibration.builder()
                        .set(Key.BRAKE_SWITCH_ON_SPEED, 0)
                        .build()
                        .get(Key.BRAKE_SWITCH_ON_SPEED))
                .isZero();
    }

    @Test
    void shouldChecksumEqualSetsEquallyAndOthersNot() {
        long plain = Calibration.builder().build().checksum();

        assertThat(Calibration.builder().set(Key.MINIMUM_RUN_TIME, 2).build().checksum())
                .isEqualTo(plain);
        assertThat(Calibration.builder().set(Key.MINIMUM_RUN_TIME, 2.5).build().checksum())
                .isNotEqualTo(plain);
        assertThat(Calibration.builder()
                        .setCurve(Key.ENGAGEMENT_ALLOWANCE, new double[] {-19, 20}, new double[] {5, 1.2})
                        .build()
                        .checksum())
                .isNotEqualTo(plain);
        assertThat(plain).isNotZero();
    }

    @Test
    @Requirement("LH-EL-2")
    void shouldAcceptOnlyTheCalibrationThatWasReleased() {
        Calibration released = Calibration.builder().build();
        released.verify(Calibration.SCHEMA_VERSION, released.checksum());

        Calibration changed =
                Calibration.builder().set(Key.MINIMUM_RUN_TIME, 2.5).build();
        assertThatThrownBy(() -> changed.verify(Calibration.SCHEMA_VERSION, released.checksum()))
                .isInstanceOf(CalibrationException.class)
                .hasMessageContaining(String.format("%08x", changed.checksum()))
                .hasMessageContaining(String.format("%08x was released", released.checksum()));
        CalibrationException older = catchThrowableOfType(
                CalibrationException.class, () -> released.verify(Calibration.SCHEMA_VERSION - 1, released.checksum()));
        assertThat(older).hasMessageContaining("schema version " + (Calibration.SCHEMA_VERSION - 1));
        assertThat(older.key()).isNull();
    }

    /** Fails whenever a key comes, goes or changes its kind: raise the schema version, then pin the new sum. */
    @Test
    @Requirement("LH-EL-2")
    void shouldRaiseTheSchemaVersionWithEveryChangeOfTheKeys() {
        java.util.zip.CRC32 crc = new java.util.zip.CRC32();
        for (Key key : Key.values()) {
            String row = key.yamlName() + " " + key.quantity() + " " + key.shape() + "\n";
            crc.update(row.getBytes(java.nio.charset.StandardCharsets.UTF_8));
        }
        assertThat(Calibration.SCHEMA_VERSION).isEqualTo(2);
        assertThat(Long.toHexString(crc.getValue())).isEqualTo("b455a52c");
    }

    @Test
    @Requirement("LH-RL-2")
    void shouldRefuseAWeldThatAnyClosedContactWouldBe() {
        Calibration.Builder builder = Calibration.builder().set(Key.CONTACT_WELDED_FRACTION, 0.6);
        assertThatThrownBy(builder::build)
                .isInstanceOf(CalibrationException.class)
                .hasMessageContaining("contact-closed-fraction")
                .hasMessageContaining("must be below");
    }

    @ParameterizedTest
    @CsvSource({"PUMP_CURRENT_OPEN, 3", "PUMP_CURRENT_OPEN, 4", "PUMP_CURRENT_DRY, 64", "PUMP_CURRENT_DRY, 80"})
    @Requirement("LH-RL-4")
    void shouldRefuseBandsOfPumpCurrentThatDoNotFollowEachOther(Key key, double amps) {
        Calibration.Builder builder = Calibration.builder().set(key, amps);
        assertThatThrownBy(builder::build)
                .isInstanceOf(CalibrationException.class)
                .hasMessageContaining(key.yamlName())
                .hasMessageContaining("must be below");
    }
}
