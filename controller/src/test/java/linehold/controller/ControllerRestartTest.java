package linehold.controller;

import static org.assertj.core.api.Assertions.assertThat;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.safety.SelfTestState;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A unit that has just started does not know whether the car stands (LH-SW-9). */
@Requirement("LH-SW-9")
class ControllerRestartTest {
    /** A car whose unit starts with the key off and the shaft at a speed. */
    private static TestCar rolling(double rpm) {
        return rolling(Calibration.builder().build(), rpm);
    }

    private static TestCar rolling(Calibration calibration, double rpm) {
        TestCar car = new TestCar(calibration);
        car.in.keyOn = false;
        car.rpm = rpm;
        return car.pressureBar(8);
    }

    /** Just above standstill speed, where edges are scarcest, to full speed; fine and coarse pickup. */
    @ParameterizedTest
    @CsvSource({"105, 4", "300, 4", "3000, 4", "6000, 60", "105, 1", "3000, 1"})
    void shouldRunThePumpWithTheKeyOffOnceASecondEdgeTellsThatTheShaftTurns(double rpm, int pulses) {
        TestCar car = rolling(
                Calibration.builder().set(Key.PULSES_PER_REVOLUTION, pulses).build(), rpm);
        car.run(2 * 60 / rpm / pulses + 0.01);
        assertThat(car.out.pumpWanted).isTrue();
        assertThat(car.out.state).isEqualTo(PumpState.PRIME);
        assertThat(car.out.reason).isEqualTo(SwitchReason.SHAFT_TURNS_AT_POWER_UP);
        assertThat(car.out.permission).isEqualTo(DrivePermission.WITHHELD);
        assertThat(car.active(TroubleCode.UNIT_RESTARTED)).isTrue();
        car.run(20);
        assertThat(car.out.pumpWanted).isTrue();
    }

    @Test
    void shouldStopThePumpWhenStandstillIsConfirmedAndKeepTheCode() {
        TestCar car = rolling(1000).run(1).rampTo(0, 1000).run(0.3);
        // Less than 100 rpm is seen after the last edges, and confirmed 0.5 s later.
        assertThat(car.out.pumpWanted).isTrue();
        car.run(2);
        assertThat(car.out.state).isEqualTo(PumpState.OFF);
        assertThat(car.out.pumpWanted).isFalse();
        assertThat(car.active(TroubleCode.UNIT_RESTARTED)).isFalse();
        assertThat(car.stored(TroubleCode.UNIT_RESTARTED)).isTrue();
    }

    @Test
    void shouldStayOffWhereTheShaftStandsAndWhenItIsTurnedLater() {
        TestCar car = rolling(0).run(0.2);
        car.rpm = 300;
        car.run(20);
        assertThat(car.out.state).isEqualTo(PumpState.OFF);
        assertThat(car.out.pumpWanted).isFalse();
        assertThat(car.out.storedCodes).isZero();
    }

    @Test
    void shouldStayOffAfterARunOnWhenTheShaftIsTurnedAtTheStandingCar() {
        TestCar car = rolling(1000).run(1).rampTo(0, 1000).run(3);
        car.rpm = 300;
        car.run(20);
        assertThat(car.out.state).isEqualTo(PumpState.OFF);
    }

    @Test
    void shouldStayOffBelowStandstillSpeed() {
        TestCar car = rolling(90).run(20);
        assertThat(car.out.state).isEqualTo(PumpState.OFF);
        assertThat(car.out.storedCodes).isZero();
    }

    @Test
    void shouldGiveDriveBackUntestedWhenTheKeyComesOnWhileRolling() {
        TestCar car = rolling(1000).run(5);
        assertThat(car.out.permission).isEqualTo(DrivePermission.WITHHELD);
        car.in.keyOn = true;
        car.tick();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
        assertThat(car.out.selfTest).isEqualTo(SelfTestState.NOT_DONE);
        assertThat(car.out.warningLamp).isTrue();
    }

    @Test
    @Requirement("LH-PR-3")
    void shouldSayWhenThePumpBringsNoPressureWhileItRunsOn() {
        TestCar car = rolling(300).pressureBar(1).run(4);
        assertThat(car.active(TroubleCode.PRIME_FAILED)).isTrue();
        assertThat(car.out.pumpWanted).isTrue();
    }

    @Test
    void shouldTellARestartWithTheKeyOnByItsCode() {
        TestCar car = new TestCar(Calibration.builder().build());
        car.pressureBar(8);
        car.rpm = 2000;
        car.run(1);
        assertThat(car.active(TroubleCode.UNIT_RESTARTED)).isTrue();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 4, 60})
    void shouldNotCallItARestartWhenADriverPullsAwayAsSoonAsDriveIsGranted(int pulses) {
        TestCar car = new TestCar(
                Calibration.builder().set(Key.PULSES_PER_REVOLUTION, pulses).build());
        for (int i = 0; car.out.permission != DrivePermission.GRANTED; i++) {
            assertThat(i).isLessThan(1000);
            car.tick();
        }
        car.rampTo(3000, 5000).run(1);
        assertThat(car.stored(TroubleCode.UNIT_RESTARTED)).isFalse();
    }

    @Test
    @Requirement("LH-TC-1")
    void shouldNotCountARunOnAsAKeyCycle() {
        TestCar car = rolling(1000).run(1).rampTo(0, 1000).run(3);
        for (int cycle = 0; cycle < 4; cycle++) {
            assertThat(car.stored(TroubleCode.UNIT_RESTARTED))
                    .as("cycle " + cycle)
                    .isTrue();
            car.in.keyOn = true;
            car.run(3);
            car.in.keyOn = false;
            car.run(3);
        }
        assertThat(car.stored(TroubleCode.UNIT_RESTARTED)).isFalse();
    }
}
