package linehold.controller;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.function.Consumer;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Speed, relay and pressure faults through the whole step. */
class ControllerFaultTest {
    private static Calibration standbyFitted() {
        return Calibration.builder().set(Key.STANDBY_RELAY_FITTED, true).build();
    }

    @Test
    @Requirement("LH-SP-2")
    void shouldReportANoisyPickupAndKeepDriving() {
        TestCar car = TestCar.driving(1000);
        for (int i = 0; i < 31; i++) {
            car.tick();
            if (car.in.pickupLastEdgeNs >= car.nowNs - TestCar.PERIOD_NS) {
                car.edgeAt(car.in.pickupLastEdgeNs + 100_000);
                car.nowNs += 100_000;
                car.step();
            }
        }
        assertThat(car.out.rejectedEdges).isPositive();
        assertThat(car.active(TroubleCode.PICKUP_NOISY)).isFalse();
        long before = car.out.rejectedEdges;
        car.in.pickupEdgeCount += 31 - before;
        car.in.pickupLastEdgeNs += 200_000;
        car.nowNs += 200_000;
        car.step();
        assertThat(car.out.rejectedEdges).isEqualTo(31);
        assertThat(car.active(TroubleCode.PICKUP_NOISY)).isTrue();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
    }

    @Test
    @Requirement("LH-SP-3")
    void shouldSwitchOnAndReportAPickupThatFallsSilentAtSpeed() {
        TestCar car = TestCar.driving(5000);
        car.pickupWorks = false;
        car.run(0.02);
        assertThat(car.active(TroubleCode.PICKUP_LOST)).isTrue();
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
        assertThat(car.out.mainRelayCoil).isTrue();
        assertThat(car.out.shaftSpeedRadPerS).isZero();
        assertThat(car.out.warningLamp).isTrue();
        car.run(10);
        assertThat(car.active(TroubleCode.PICKUP_LOST)).isTrue();

        car.pickupWorks = true;
        car.run(4);
        assertThat(car.active(TroubleCode.PICKUP_LOST)).isFalse();
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
        assertThat(car.stored(TroubleCode.PICKUP_LOST)).isTrue();
    }

    @Test
    @Requirement("LH-SP-3")
    void shouldReportAPickupThatDiesSlowlyWhenPressureShowsTheInternalPumpAtWork() {
        TestCar car = TestCar.driving(1500);
        car.pressureBar(10.5);
        car.pickupWorks = false;
        car.run(0.9);
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
        assertThat(car.active(TroubleCode.PICKUP_LOST)).isFalse();
        car.run(0.5);
        assertThat(car.active(TroubleCode.PICKUP_LOST)).isTrue();
    }

    @ParameterizedTest
    @CsvSource({"4500, 4", "15000, 4", "124900, 4", "4500, 1", "15000, 1", "124900, 1"})
    @Requirement("LH-SP-3")
    void shouldNotCallALockedWheelALostPickup(double rpmPerS, int pulses) {
        TestCar car = TestCar.driving(
                Calibration.builder().set(Key.PULSES_PER_REVOLUTION, pulses).build(), 6000);
        car.rampTo(0, rpmPerS).run(3);

        assertThat(car.out.storedCodes).isZero();
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
    }

    @Test
    @Requirement({"LH-SP-3", "LH-SW-9"})
    void shouldRunOnAfterKeyOffWithThePickupLost() {
        TestCar car = TestCar.driving(5000);
        car.pickupWorks = false;
        car.run(100);
        assertThat(car.active(TroubleCode.PICKUP_LOST)).isTrue();
        car.in.keyOn = false;
        car.run(59.9);
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
        car.run(0.2);
        assertThat(car.out.state).isEqualTo(PumpState.OFF);
    }

    @Test
    @Requirement("LH-PR-1")
    void shouldSwitchOverBySpeedAloneInAWiderWindowWhenTheSenderIsLost() {
        TestCar car = TestCar.driving(750);
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
        car.in.pressureSenderVolts = 0;
        car.run(0.05);
        assertThat(car.active(TroubleCode.SENDER_LOST)).isFalse();
        car.tick();
        assertThat(car.active(TroubleCode.SENDER_LOST)).isTrue();
        assertThat(car.out.warningLamp).isTrue();
        assertThat(car.out.linePressurePa).isNaN();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);

        // On below 600 instead of 500 rpm, off above 800 instead of 600 rpm.
        car.rampTo(620, 100).run(1);
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
        car.rampTo(590, 100).run(0.1);
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
        car.rampTo(790, 100).run(5);
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
        car.rampTo(810, 100).run(1);
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);

        car.pressureBar(8).run(2.1);
        assertThat(car.active(TroubleCode.SENDER_LOST)).isFalse();
        assertThat(car.out.linePressurePa).isCloseTo(8e5, within(1e-3));
    }

    @Test
    @Requirement("LH-PR-1")
    void shouldNotReactToAShortDropoutOfTheSender() {
        TestCar car = TestCar.driving(2000);
        car.in.pressureSenderVolts = Double.NaN;
        car.run(0.04);
        car.pressureBar(8).run(1);

        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
        assertThat(car.out.storedCodes).isZero();
    }

    @Test
    @Requirement("LH-PR-1")
    void shouldLeavePrimeByTimeWhenTheSenderIsLost() {
        TestCar car = TestCar.standard().pressureBar(0);
        car.in.pressureSenderVolts = Double.NaN;
        car.in.oilTemperatureC = 20;
        car.run(1.5);
        assertThat(car.out.state).isEqualTo(PumpState.PRIME);
        car.run(0.2); // the key-on test of the relays comes first
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
        assertThat(car.active(TroubleCode.SENDER_LOST)).isTrue();
    }

    @Test
    @Requirement({"LH-PR-2", "LH-PR-5"})
    void shouldReduceDriveWhenPressureIsLostWithTheShaftTurning() {
        TestCar car = TestCar.driving(standbyFitted(), 2000);
        car.in.selectedRange = Range.DRIVE;
        car.in.torqueRequestNm = 100;
        car.pressureBar(3).run(0.02);
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
        assertThat(car.out.torqueLimitNm).isInfinite();
        car.run(0.01); // an edge after the 20 ms
        assertThat(car.out.permission).isEqualTo(DrivePermission.REDUCED);
        // 26 N·m/bar of the first-gear element over 2 bar.
        assertThat(car.out.torqueLimitNm).isCloseTo(52, within(1e-6));
        assertThat(car.active(TroubleCode.PRESSURE_LOST_MOVING)).isTrue();
        assertThat(car.out.mainRelayCoil && car.out.standbyRelayCoil).isTrue();
        assertThat(car.out.warningLamp && car.out.buzzer).isTrue();

        car.pressureBar(8).run(10);
        assertThat(car.out.permission).isEqualTo(DrivePermission.REDUCED);
        assertThat(car.out.torqueLimitNm).isCloseTo(182, within(1e-6));
        assertThat(car.out.pumpWanted && car.out.standbyRelayCoil).isTrue();
        car.in.torqueRequestNm = 0;
        car.tick();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
        assertThat(car.out.standbyRelayCoil).isFalse();
        assertThat(car.stored(TroubleCode.PRESSURE_LOST_MOVING)).isTrue();
    }

    @Test
    @Requirement("LH-PR-2")
    void shouldSwitchOnForLostPressureEvenWithHelpTurnedOff() {
        TestCar car =
                TestCar.driving(Calibration.builder().set(Key.HELP_PRESSURE, 0).build(), 2000);
        car.in.torqueRequestNm = 50;
        car.pressureBar(3.9).run(0.03);

        assertThat(car.out.mainRelayCoil).isTrue();
        assertThat(car.out.reason).isEqualTo(SwitchReason.PRESSURE_LOST);
    }

    @ParameterizedTest
    @CsvSource({
        "DRIVE, true, 52",
        "REVERSE, true, 52.5",
        "PARK, true, 52",
        "NEUTRAL, true, 52",
        ", true, 52",
        "REVERSE, false, 52"
    })
    @Requirement("LH-PR-5")
    void shouldLimitTorqueByTheElementsThatTheRangeCanEngage(Range range, boolean fitted, double limitNm) {
        TestCar car = TestCar.driving(
                Calibration.builder().set(Key.RANGE_FITTED, fitted).build(), 2000);
        car.in.selectedRange = range;
        car.in.torqueRequestNm = 100;
        car.pressureBar(3).run(0.03);

        assertThat(car.out.torqueLimitNm).isCloseTo(limitNm, within(1e-6));
    }

    @Test
    @Requirement("LH-PR-5")
    void shouldTakeTheWeakestOfAllElementsWhereReverseIsWeakest() {
        TestCar car = TestCar.driving(
                Calibration.builder().set(Key.REVERSE_TORQUE_PER_PRESSURE, 1e-4).build(), 2000);
        car.in.selectedRange = Range.NEUTRAL;
        car.in.torqueRequestNm = 100;
        car.pressureBar(3).run(0.03);

        assertThat(car.out.torqueLimitNm).isCloseTo(21, within(1e-6));
    }

    @Test
    @Requirement("LH-PR-2")
    void shouldWithholdDriveInTheSameTickWhileAnElementFillsAtStandstill() {
        TestCar car = TestCar.driving(0);
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
        car.pressureBar(3.4).tick();
        assertThat(car.out.permission).isEqualTo(DrivePermission.WITHHELD);
        assertThat(car.out.torqueLimitNm).isZero();
        car.run(1.15);
        assertThat(car.out.activeCodes).isZero();
        car.pressureBar(4.1).tick();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
        assertThat(car.out.storedCodes).isZero();
    }

    @Test
    @Requirement("LH-PR-2")
    void shouldReportAnEngagementThatTakesTooLong() {
        TestCar car = TestCar.driving(standbyFitted(), 0);
        car.in.torqueRequestNm = 60;
        car.pressureBar(3.4).run(1.205);
        assertThat(car.active(TroubleCode.PRESSURE_LOST_STANDING)).isFalse();
        car.tick();
        assertThat(car.active(TroubleCode.PRESSURE_LOST_STANDING)).isTrue();
        assertThat(car.out.standbyRelayCoil).isTrue();
        assertThat(car.out.buzzer).isTrue();
        assertThat(car.out.permission).isEqualTo(DrivePermission.WITHHELD);
        car.pressureBar(8).run(5);
        assertThat(car.out.permission).isEqualTo(DrivePermission.REDUCED);
        car.in.torqueRequestNm = 0;
        car.tick();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 4})
    @Requirement("LH-PR-2")
    void shouldNotReportPressureLostWhenAnElementFillsAtTheEndOfAHardStop(int pulses) {
        TestCar car = TestCar.driving(
                Calibration.builder().set(Key.PULSES_PER_REVOLUTION, pulses).build(), 2000);
        while (car.rpm > 0) {
            car.rampTick(0, 15_000);
        }
        car.pressureBar(3.5).run(1);
        assertThat(car.out.permission).isEqualTo(DrivePermission.WITHHELD);
        car.pressureBar(5).tick();

        assertThat(car.out.storedCodes).isZero();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
    }

    @Test
    @Requirement("LH-PR-2")
    void shouldWithholdDriveAsSoonAsTheShaftMayHaveComeToRest() {
        TestCar car = TestCar.driving(400);
        car.pressureBar(3.5).rpm = 0;
        while (car.out.permission == DrivePermission.GRANTED) {
            car.tick();
        }
        // Half a pulse overdue the shaft may stand, though it may also still do two thirds of 400 rpm.
        assertThat(car.seenRpm()).isBetween(230.0, 267.0);
        assertThat(car.out.permission).isEqualTo(DrivePermission.WITHHELD);
        assertThat(car.out.activeCodes).isZero();
    }

    /** One measured input after another fails at speed, and for good. None may leave a slow shaft without the pump. */
    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 3, 4, 5, 6})
    @Requirement({"LH-SW-1", "LH-TK-1"})
    void shouldEndWithThePumpRunningWhicheverMeasurementIsMissing(int which) {
        Consumer<Inputs> blind = switch (which) {
            case 0 -> in -> in.pressureSenderVolts = Double.NaN;
            case 1 -> in -> in.pressureSenderSupplyVolts = Double.NaN;
            case 2 -> in -> in.mainContactVolts = Double.NaN;
            case 3 -> in -> in.busVolts = Double.NaN;
            case 4 -> in -> in.oilTemperatureC = Double.NaN;
            case 5 -> in -> in.torqueRequestNm = Double.NaN;
            case 6 -> in -> in.pumpCurrentAmps = Double.NaN;
            default -> throw new AssertionError(which);
        };
        TestCar car = TestCar.driving(2000);
        while (car.rpm > 0) {
            blind.accept(car.in);
            car.rampTick(0, 3000);
        }
        for (int i = 0; i < 2000; i++) {
            blind.accept(car.in);
            car.tick();
            assertThat(car.out.mainRelayCoil).isTrue();
        }
    }
}
