package linehold.controller;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ControllerSwitchingTest {
    private static final double RPM = Math.PI / 30;

    /** Speed alone decides: no prediction, no brake. */
    private static Calibration.Builder plain() {
        return Calibration.builder().set(Key.FALLING_SPEED_PREDICTION, false).set(Key.BRAKE_SWITCH_ON_SPEED, 0);
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 4})
    @Requirement("LH-SW-1")
    void shouldSwitchOnInTheTickThatSeesTheSpeedBelowSwitchOnSpeed(int pulses) {
        TestCar car =
                TestCar.driving(plain().set(Key.PULSES_PER_REVOLUTION, pulses).build(), 700);
        assertThat(car.out.mainRelayCoil).isFalse();
        while (car.out.shaftSpeedRadPerS >= 500 * RPM) {
            assertThat(car.out.pumpWanted).isFalse();
            car.rampTick(0, 400);
        }
        assertThat(car.out.mainRelayCoil).isTrue();
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
        assertThat(car.out.reason).isEqualTo(SwitchReason.SPEED_BELOW_SWITCH_ON);
        // One pulse and one tick late at the most: at 400 rpm/s and 500 rpm a pulse is 120 ms or 30 ms.
        assertThat(car.rpm).isGreaterThan(500 - 400 * (60.0 / 500 / pulses + 0.005) * 1.2);
    }

    @Test
    @Requirement({"LH-SW-2", "LH-SW-4"})
    void shouldSwitchOffWhenSpeedIsConfirmedAndPressureIsThere() {
        TestCar car = TestCar.standard();
        car.run(3);
        car.rpm = 700;
        while (!(car.out.shaftSpeedRadPerS > 600 * RPM)) {
            car.tick();
        }
        long since = car.nowNs;
        assertThat(car.out.state).isEqualTo(PumpState.OVERLAP);
        while (car.out.pumpWanted) {
            car.tick();
        }
        assertThat((car.nowNs - since) * 1e-9).isCloseTo(0.3, within(0.0051));
        assertThat(car.out.mainRelayCoil).isFalse();
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
    }

    @Test
    @Requirement("LH-SW-2")
    void shouldNotSwitchOffBelowTheHandOverPressure() {
        TestCar car = TestCar.standard().pressureBar(4.49);
        car.rpm = 2000;
        car.run(10);
        assertThat(car.out.state).isEqualTo(PumpState.OVERLAP);
        car.pressureBar(4.51).tick();
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
    }

    @Test
    @Requirement("LH-SW-2")
    void shouldNotSwitchOffBetweenTheTwoSpeeds() {
        TestCar car = TestCar.standard();
        car.rpm = 590;
        car.run(10);

        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
    }

    @Test
    @Requirement("LH-SW-2")
    void shouldStayInternalBetweenTheTwoSpeeds() {
        TestCar car = TestCar.driving(plain().build(), 700);
        car.rampTo(520, 200).run(10);

        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
    }

    @Test
    @Requirement("LH-SW-2")
    void shouldSwitchOffBySpeedAloneWhereNoSenderIsFitted() {
        TestCar car = new TestCar(plain().set(Key.SENDER_FITTED, false).build());
        car.in.pressureSenderVolts = Double.NaN;
        car.run(1);
        car.rpm = 610;
        car.run(10);

        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
        assertThat(car.out.activeCodes).isZero();
        assertThat(car.out.linePressurePa).isNaN();
    }

    @Test
    @Requirement({"LH-SW-4", "LH-SW-5"})
    void shouldHelpInTheSameTickWhenPressureIsLowAtSpeedAndForTheMinimumRunTime() {
        TestCar car = TestCar.driving(3000);
        car.pressureBar(4.21).run(1);
        assertThat(car.out.pumpWanted).isFalse();
        car.pressureBar(4.19).tick();
        assertThat(car.out.mainRelayCoil).isTrue();
        assertThat(car.out.state).isEqualTo(PumpState.HELP);
        assertThat(car.out.reason).isEqualTo(SwitchReason.PRESSURE_BELOW_HELP);
        long since = car.nowNs;
        car.pressureBar(8);
        while (car.out.pumpWanted) {
            car.tick();
        }
        assertThat((car.nowNs - since) * 1e-9).isCloseTo(2, within(1e-9));
        assertThat(car.out.activeCodes).isZero();
    }

    @Test
    @Requirement("LH-SW-5")
    void shouldNotHelpWhenHelpIsTurnedOff() {
        TestCar car =
                TestCar.driving(Calibration.builder().set(Key.HELP_PRESSURE, 0).build(), 3000);
        car.pressureBar(4.1).run(1);

        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
    }

    @Test
    @Requirement("LH-SW-6")
    void shouldSwitchOnAheadOfAHardStop() {
        TestCar car = TestCar.driving(3000);
        while (!car.out.pumpWanted) {
            car.rampTick(0, 15_000);
        }
        assertThat(car.out.state).isEqualTo(PumpState.HELP);
        assertThat(car.out.reason).isEqualTo(SwitchReason.SPEED_FALLING);
        // Carry speed 110 rpm at 60 °C, lead time 90 ms and a pulse: due at about 1,500 to 1,700 rpm; the slope is some
        // 20 ms old at first, which is 300 rpm.
        assertThat(car.rpm).isBetween(1150.0, 1800.0);
        assertThat((car.rpm - 110) / 15_000).isGreaterThan(0.069);
    }

    @Test
    @Requirement("LH-SW-6")
    void shouldNotSwitchOnEarlyInAnOrdinaryStop() {
        // 2.5 m/s² at a total ratio of 6.4 and a tyre of 0.31 m are about 490 rpm/s.
        TestCar car = TestCar.driving(2500);
        while (!car.out.pumpWanted) {
            car.rampTick(0, 490);
        }
        assertThat(car.out.reason).isEqualTo(SwitchReason.SPEED_BELOW_SWITCH_ON);
    }

    @Test
    @Requirement("LH-SW-6")
    void shouldPredictAlsoFromEdgesThatDoNotCome() {
        TestCar coarse = TestCar.driving(
                Calibration.builder().set(Key.PULSES_PER_REVOLUTION, 1).build(), 2000);
        while (!coarse.out.pumpWanted) {
            coarse.rampTick(0, 15_000);
        }
        assertThat(coarse.out.reason).isEqualTo(SwitchReason.SPEED_FALLING);
        assertThat(coarse.seenRpm()).isGreaterThan(550);
    }

    @ParameterizedTest
    @CsvSource({"1490, true, true", "1510, true, false", "1490, false, false"})
    @Requirement("LH-SW-7")
    void shouldSwitchOnWithTheBrakeAppliedBelowItsSpeed(double rpm, boolean brake, boolean on) {
        TestCar car = TestCar.driving(rpm);
        assertThat(car.out.pumpWanted).isFalse();
        car.in.brakeApplied = brake;
        car.tick();

        assertThat(car.out.mainRelayCoil).isEqualTo(on);
        assertThat(car.out.reason).isEqualTo(on ? SwitchReason.BRAKE_APPLIED : SwitchReason.HAND_OVER_CONFIRMED);
    }

    @Test
    @Requirement("LH-SW-7")
    void shouldIgnoreTheBrakeWhereItIsNotFittedOrTurnedOff() {
        TestCar none = TestCar.driving(
                Calibration.builder().set(Key.BRAKE_FITTED, false).build(), 1000);
        none.in.brakeApplied = true;
        none.run(1);
        assertThat(none.out.state).isEqualTo(PumpState.INTERNAL);

        TestCar off = TestCar.driving(
                Calibration.builder().set(Key.BRAKE_SWITCH_ON_SPEED, 0).build(), 1000);
        off.in.brakeApplied = true;
        off.run(1);
        assertThat(off.out.state).isEqualTo(PumpState.INTERNAL);
    }

    @Test
    @Requirement("LH-SW-7")
    void shouldKeepThePumpOnWhileTheBrakeIsAppliedAndHandOverAfterwards() {
        TestCar car = TestCar.driving(1000);
        car.in.brakeApplied = true;
        car.run(10);
        assertThat(car.out.state).isEqualTo(PumpState.HELP);
        car.in.brakeApplied = false;
        car.tick();
        assertThat(car.out.state).isEqualTo(PumpState.OVERLAP);
        assertThat(car.out.reason).isEqualTo(SwitchReason.HELP_OVER);
        car.tick();
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
    }

    @Test
    @Requirement("LH-SW-8")
    void shouldStayOnForTheCoolDownTimeAndCountIt() {
        TestCar car = TestCar.driving(
                plain().set(Key.RELAY_OPERATIONS_PER_MINUTE, 4)
                        .set(Key.COOL_DOWN_TIME, 30)
                        .build(),
                700);
        for (int i = 0; i < 2; i++) {
            car.rpm = 300;
            car.run(1);
            car.rpm = 700;
            car.run(4);
        }
        // Operations: prime, hand-over, on, off, on: the fifth within the minute.
        assertThat(car.out.state).isEqualTo(PumpState.OVERLAP);
        assertThat(car.out.coolDowns).isEqualTo(1);
        car.run(25);
        assertThat(car.out.state).isEqualTo(PumpState.OVERLAP);
        car.run(1);
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
    }

    @Test
    @Requirement("LH-SW-9")
    void shouldPrimeAtKeyOnUntilPressureHolds() {
        TestCar car = TestCar.standard().pressureBar(0);
        car.in.keyOn = false;
        car.run(1);
        assertThat(car.out.state).isEqualTo(PumpState.OFF);
        assertThat(car.out.mainRelayCoil).isFalse();
        assertThat(car.out.permission).isEqualTo(DrivePermission.WITHHELD);
        car.in.keyOn = true;
        car.tick();
        assertThat(car.out.state).isEqualTo(PumpState.PRIME);
        assertThat(car.out.mainRelayCoil).isTrue();
        car.pressureBar(3.99).run(2.9);
        assertThat(car.out.activeCodes).isZero();
        car.run(30);
        assertThat(car.out.state).isEqualTo(PumpState.PRIME);
        assertThat(car.out.permission).isEqualTo(DrivePermission.WITHHELD);
        car.pressureBar(4.01).tick();
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
    }

    @Test
    @Requirement("LH-SW-9")
    void shouldPrimeForTheTimeOfThisOilTemperatureWhereNoSenderIsFitted() {
        TestCar car = new TestCar(plain().set(Key.SENDER_FITTED, false).build());
        car.in.oilTemperatureC = Double.NaN;
        car.run(3);
        assertThat(car.out.state).isEqualTo(PumpState.PRIME);
        car.run(0.2); // the key-on test of the relays comes first
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);

        TestCar warm = new TestCar(plain().set(Key.SENDER_FITTED, false).build());
        warm.in.oilTemperatureC = 20;
        warm.run(1.7);
        assertThat(warm.out.state).isEqualTo(PumpState.ELECTRIC);

        TestCar blind = new TestCar(plain().set(Key.SENDER_FITTED, false)
                .set(Key.OIL_TEMPERATURE_FITTED, false)
                .build());
        blind.in.oilTemperatureC = 20;
        blind.run(3);
        assertThat(blind.out.state).isEqualTo(PumpState.PRIME);

        TestCar broken = new TestCar(plain().set(Key.SENDER_FITTED, false).build());
        broken.in.oilTemperatureC = Double.POSITIVE_INFINITY;
        broken.run(3);
        assertThat(broken.out.state).isEqualTo(PumpState.PRIME);
    }

    @Test
    @Requirement("LH-SW-9")
    void shouldKeepWorkingAfterKeyOffUntilStandstillIsConfirmed() {
        TestCar car = TestCar.driving(2000);
        car.in.keyOn = false;
        car.run(5);
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
        car.rampTo(0, 1000);
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
        // The last pulse came before the shaft stood; below 100 rpm is seen 150 ms after it, confirmed 0.5 s later.
        car.run(0.3);
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
        car.run(2);
        assertThat(car.out.state).isEqualTo(PumpState.OFF);
        assertThat(car.out.mainRelayCoil).isFalse();
        assertThat(car.out.reason).isEqualTo(SwitchReason.KEY_OFF_AT_STANDSTILL);
    }

    @Test
    @Requirement("LH-SW-9")
    void shouldKeepTheDriveGoingWhenTheKeyReturnsBeforeStandstill() {
        TestCar car = TestCar.driving(2000);
        car.in.keyOn = false;
        car.rampTo(200, 2000).run(5);
        car.in.keyOn = true;
        car.tick();

        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
    }

    @Test
    @Requirement("LH-RL-6")
    void shouldTurnTheCoilRoundForANormallyClosedContact() {
        TestCar car = new TestCar(plain().set(Key.NORMALLY_CLOSED_CONTACT, true).build());
        car.in.keyOn = false;
        car.run(1);
        assertThat(car.out.pumpWanted).isFalse();
        assertThat(car.out.mainRelayCoil).isTrue();
        car.in.keyOn = true;
        car.rpm = 300;
        car.run(3);
        assertThat(car.out.pumpWanted).isTrue();
        assertThat(car.out.mainRelayCoil).isFalse();
        assertThat(car.out.activeCodes).isZero();
        car.rpm = 2000;
        car.run(3);
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
        assertThat(car.out.mainRelayCoil).isTrue();
        assertThat(car.out.activeCodes).isZero();
    }
}
