package linehold.controller;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.safety.FrozenValue;
import linehold.controller.safety.SelfTestState;
import linehold.controller.safety.StoredCodes;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Relays, feed, pump current, prime, sender motion, supply and stored codes through the whole step. */
class ControllerFeedTest {
    private static Calibration.Builder standby() {
        return Calibration.builder().set(Key.STANDBY_RELAY_FITTED, true);
    }

    private static TestCar standing(Calibration.Builder builder) {
        return new TestCar(builder.build()).run(5);
    }

    private static TestCar keyOff(TestCar car) {
        car.in.keyOn = false;
        car.rpm = 0;
        return car.run(5);
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    @Requirement({"LH-RL-5", "LH-RL-6"})
    void shouldWithholdDriveUntilTheRelaysAreTested(boolean normallyClosed) {
        TestCar car = new TestCar(
                standby().set(Key.NORMALLY_CLOSED_CONTACT, normallyClosed).build());
        boolean mainOpened = false;
        boolean standbyClosed = false;
        while (car.out.state != PumpState.ELECTRIC) {
            car.tick();
            mainOpened |= car.out.mainRelayCoil == normallyClosed && car.out.state == PumpState.PRIME;
            standbyClosed |= car.out.standbyRelayCoil;
            assertThat(car.out.permission == DrivePermission.GRANTED)
                    .isEqualTo(car.out.selfTest == SelfTestState.PASSED && car.out.state == PumpState.ELECTRIC);
        }
        assertThat(mainOpened && standbyClosed).isTrue();
        assertThat((car.nowNs - 1_000_000_000) * 1e-9).isLessThan(0.3);
        assertThat(car.out.warningLamp).isFalse();
    }

    @Test
    @Requirement("LH-RL-5")
    void shouldPrimeAtOnceAndLightTheLampWhenStartedWhileTheCarRolls() {
        TestCar car =
                new TestCar(standby().set(Key.NORMALLY_CLOSED_CONTACT, true).build());
        car.rpm = 1500;
        for (int i = 0; i < 1000; i++) {
            car.tick();
            assertThat(car.out.pumpWanted || car.out.state == PumpState.INTERNAL)
                    .isTrue();
        }
        assertThat(car.out.selfTest).isEqualTo(SelfTestState.NOT_DONE);
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
        assertThat(car.out.warningLamp).isTrue();
        assertThat(car.out.activeCodes).isEqualTo(TroubleCode.UNIT_RESTARTED.bit());

        keyOff(car);
        assertThat(car.out.warningLamp).isFalse();
        car.pressureBar(0);
        car.in.keyOn = true;
        car.run(0.1).pressureBar(8).run(1);
        assertThat(car.out.selfTest).isEqualTo(SelfTestState.PASSED);
        assertThat(car.out.warningLamp).isFalse();
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldKeepDriveGrantedOnTheStandbyRelayInTheTickThatFindsTheMainRelayDead() {
        TestCar car = TestCar.driving(standby().build(), 2000);
        car.mainSticks = false;
        car.rpm = 0;
        while (!car.out.pumpWanted) {
            car.tick();
        }
        long since = car.nowNs;
        while (!car.out.standbyRelayCoil) {
            assertThat(car.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isFalse();
            car.tick();
        }
        assertThat((car.nowNs - since) * 1e-9).isCloseTo(0.06, within(1e-9));
        assertThat(car.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isTrue();
        assertThat(car.out.mainRelayCoil && car.out.warningLamp).isTrue();
        assertThat(car.out.buzzer).isFalse();
        car.run(3);
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
        assertThat(car.out.activeCodes).isEqualTo(TroubleCode.MAIN_RELAY_STUCK_OFF.bit());
        keyOff(car);
        assertThat(car.out.activeCodes).isZero();
        assertThat(car.stored(TroubleCode.MAIN_RELAY_STUCK_OFF)).isTrue();
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    @Requirement({"LH-RL-2", "LH-RL-6"})
    void shouldReportAWeldedContactAndKeepDriveGranted(boolean normallyClosed) {
        TestCar car = TestCar.driving(
                standby().set(Key.NORMALLY_CLOSED_CONTACT, normallyClosed).build(), 2000);
        assertThat(car.out.pumpWanted).isFalse();
        keyOff(car);
        car.in.keyOn = true;
        car.pressureBar(0).run(0.1).pressureBar(8).run(2);
        car.mainSticks = true;
        car.rpm = 2000;
        while (car.out.pumpWanted) {
            car.tick();
        }
        car.run(0.49);
        assertThat(car.active(TroubleCode.MAIN_RELAY_WELDED)).isFalse();
        car.run(0.05);
        assertThat(car.active(TroubleCode.MAIN_RELAY_WELDED)).isTrue();
        assertThat(car.active(TroubleCode.STANDBY_RELAY_WELDED)).isFalse();
        assertThat(car.out.warningLamp).isTrue();
        assertThat(car.out.buzzer).isFalse();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
    }

    @Test
    @Requirement("LH-RL-3")
    void shouldWithholdDriveAtStandstillAndLimitItWhileMovingWhenBothRelaysFail() {
        TestCar car = standing(standby());
        car.in.selectedRange = Range.DRIVE;
        car.in.torqueRequestNm = 50;
        car.mainSticks = false;
        car.standbySticks = false;
        car.run(0.2);
        assertThat(car.active(TroubleCode.PUMP_FEED_LOST)).isTrue();
        assertThat(car.out.permission).isEqualTo(DrivePermission.WITHHELD);
        assertThat(car.out.torqueLimitNm).isZero();
        assertThat(car.out.buzzer).isTrue();
        // The car rolls: 8 bar, and 26 N·m/bar of the first-gear element over its touch pressure.
        car.rpm = 2000;
        car.run(5);
        assertThat(car.out.permission).isEqualTo(DrivePermission.REDUCED);
        assertThat(car.out.torqueLimitNm).isCloseTo(182, within(1e-6));
        assertThat(car.out.mainRelayCoil && car.out.standbyRelayCoil).isTrue();
        assertThat(car.out.state).isEqualTo(PumpState.OVERLAP);

        car.mainSticks = null;
        car.run(10);
        assertThat(car.out.permission).isEqualTo(DrivePermission.REDUCED);
        car.in.torqueRequestNm = 0;
        car.tick();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
        car.run(1);
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
    }

    @Test
    @Requirement({"LH-RL-3", "LH-PR-5"})
    void shouldLimitTorqueToTheHoldPressureWhileMovingWhereNoSenderTells() {
        TestCar car = standing(standby().set(Key.SENDER_FITTED, false));
        car.in.selectedRange = Range.DRIVE;
        car.in.torqueRequestNm = 50;
        car.mainSticks = false;
        car.standbySticks = false;
        car.run(0.2);
        assertThat(car.out.permission).isEqualTo(DrivePermission.WITHHELD);
        car.rpm = 300;
        car.run(2);
        // Too slow for the internal pump: nothing is known to carry.
        assertThat(car.out.permission).isEqualTo(DrivePermission.REDUCED);
        assertThat(car.out.torqueLimitNm).isZero();
        car.rpm = 2000;
        car.run(2);
        assertThat(car.out.permission).isEqualTo(DrivePermission.REDUCED);
        assertThat(car.out.torqueLimitNm).isCloseTo(78, within(1e-6)); // 26 N·m/bar over 3 bar
    }

    @Test
    @Requirement({"LH-RL-3", "LH-PR-5"})
    void shouldTrustNoSpeedWhereTheSenderFailsAfterPressureWasSeenToFail() {
        TestCar car = TestCar.driving(standby().build(), 2000);
        car.in.torqueRequestNm = 100;
        car.pressureBar(3).run(0.1);
        assertThat(car.out.torqueLimitNm).isPositive();
        car.in.pressureSenderVolts = Double.NaN;
        car.run(1);
        assertThat(car.out.permission).isEqualTo(DrivePermission.REDUCED);
        assertThat(car.out.torqueLimitNm).isZero();
    }

    @ParameterizedTest
    @CsvSource({"0, PUMP_CURRENT_NONE", "70, PUMP_STALLED", "2, PUMP_DRY"})
    @Requirement({"LH-RL-4", "LH-RL-3"})
    void shouldDoubtAPumpByItsCurrentOnlyWhereNoSenderTellsThePressure(double amps, TroubleCode code) {
        for (boolean sender : new boolean[] {true, false}) {
            TestCar car = new TestCar(standby()
                    .set(Key.PUMP_CURRENT_FITTED, true)
                    .set(Key.SENDER_FITTED, sender)
                    .build());
            car.in.pumpCurrentAmps = 0;
            for (int i = 0; i < 1000; i++) {
                car.in.pumpCurrentAmps = car.in.mainContactVolts > 0 ? 12 : 0;
                car.tick();
            }
            assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
            assertThat(car.out.storedCodes).isZero();
            car.rpm = 300;
            car.in.torqueRequestNm = 50;
            car.in.pumpCurrentAmps = amps;
            if (sender) {
                car.pressureBar(3.9);
            }
            car.run(4);
            assertThat(car.active(code)).isTrue();
            assertThat(car.out.standbyRelayCoil && car.out.mainRelayCoil).isTrue();
            car.rpm = 0;
            if (sender) {
                car.pressureBar(8);
            }
            car.run(0.3);
            // With a sender the pressure decides: it holds, but was lost while moving and drive is limited still.
            assertThat(car.out.permission).isEqualTo(sender ? DrivePermission.REDUCED : DrivePermission.WITHHELD);
        }
    }

    @Test
    @Requirement("LH-RL-4")
    void shouldRestAStalledPumpOnlyWhileTheInternalPumpCarries() {
        TestCar car = new TestCar(
                Calibration.builder().set(Key.PUMP_CURRENT_FITTED, true).build());
        for (int i = 0; i < 4000; i++) {
            car.in.pumpCurrentAmps = car.in.mainContactVolts > 0 ? i < 1000 ? 12 : 75 : 0;
            // 550 rpm: fast enough to carry, too slow to hand over.
            car.rpm = i < 1500 ? 550 : i < 2500 ? 300 : 550;
            car.tick();
            if (car.rpm == 300 && i > 1520) {
                assertThat(car.out.pumpWanted).isTrue();
            }
            if (i == 1400) {
                assertThat(car.out.pumpWanted).isFalse();
                assertThat(car.active(TroubleCode.PUMP_STALLED)).isTrue();
                assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
            }
        }
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
    }

    @Test
    @Requirement("LH-PR-3")
    void shouldWithholdDriveAndSayWhyWhenPrimePressureIsNotReached() {
        TestCar car = new TestCar(standby().build()).pressureBar(1);
        car.in.torqueRequestNm = 50;
        car.run(3.1);
        assertThat(car.out.activeCodes).isZero();
        car.run(0.2);
        assertThat(car.active(TroubleCode.PRIME_FAILED)).isTrue();
        assertThat(car.out.permission).isEqualTo(DrivePermission.WITHHELD);
        assertThat(car.out.state).isEqualTo(PumpState.PRIME);
        assertThat(car.out.mainRelayCoil && car.out.standbyRelayCoil && car.out.buzzer)
                .isTrue();
        car.pressureBar(5).run(5);
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
        assertThat(car.out.permission).isEqualTo(DrivePermission.WITHHELD);
        car.in.torqueRequestNm = 0;
        car.tick();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
        keyOff(car.pressureBar(1));
        car.in.keyOn = true;
        car.run(4);
        assertThat(car.active(TroubleCode.PRIME_FAILED)).isTrue();
        keyOff(car);
        assertThat(car.out.activeCodes).isZero();
    }

    @Test
    @Requirement("LH-PR-4")
    void shouldSwitchOverBySpeedAloneWithASenderThatDidNotMoveOverAHandOver() {
        TestCar car = standing(Calibration.builder());
        car.in.selectedRange = Range.DRIVE;
        car.rpm = 2000;
        while (car.out.state != PumpState.INTERNAL) {
            car.tick();
        }
        car.run(0.99);
        assertThat(car.out.activeCodes).isZero();
        car.run(0.02);
        assertThat(car.active(TroubleCode.SENDER_SUSPECT)).isTrue();
        assertThat(car.out.linePressurePa).isNaN();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
        assertThat(car.out.warningLamp).isTrue();
        // A stuck sender that shows low pressure does nothing any more; the window is the wide one, 600 to 800 rpm.
        car.pressureBar(1).rampTo(620, 500).run(1);
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
        car.rampTo(590, 500).run(0.1);
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
        car.rampTo(790, 500).run(5);
        assertThat(car.out.state).isEqualTo(PumpState.ELECTRIC);
        car.rampTo(810, 500).run(3);
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
        keyOff(car);
        assertThat(car.out.activeCodes).isZero();
    }

    @ParameterizedTest
    @CsvSource({"PARK, true, false", "NEUTRAL, true, false", "REVERSE, true, true", "DRIVE, false, false"})
    @Requirement("LH-PR-4")
    void shouldJudgeTheSenderOverAHandOverOnlyInADrivingRange(Range range, boolean fitted, boolean suspect) {
        TestCar car = standing(Calibration.builder().set(Key.RANGE_FITTED, fitted));
        car.in.selectedRange = range;
        car.rpm = 2000;
        car.run(5);
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
        assertThat(car.active(TroubleCode.SENDER_SUSPECT)).isEqualTo(suspect);
    }

    @Test
    @Requirement("LH-PR-4")
    void shouldCountEveryMotionOfTheSenderSinceStandstill() {
        TestCar car = standing(Calibration.builder());
        car.in.selectedRange = Range.DRIVE;
        car.rpm = 300;
        car.run(1).pressureBar(9).run(1);
        car.rpm = 2000;
        car.run(5);
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
        assertThat(car.active(TroubleCode.SENDER_SUSPECT)).isFalse();
    }

    @Test
    @Requirement("LH-PR-4")
    void shouldSuspectASenderStuckHighAtKeyOn() {
        TestCar car = TestCar.standard().pressureBar(6).run(2);
        assertThat(car.active(TroubleCode.SENDER_SUSPECT)).isTrue();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
    }

    /** The line may be empty indeed, behind a blocked hose: drive stays withheld whatever the pump draws. */
    @ParameterizedTest
    @ValueSource(doubles = {12, 2})
    @Requirement({"LH-PR-4", "LH-PR-3"})
    void shouldWithholdDriveWithASenderThatStaysLowInPrime(double amps) {
        TestCar car = new TestCar(
                        Calibration.builder().set(Key.PUMP_CURRENT_FITTED, true).build())
                .pressureBar(0);
        for (int i = 0; i < 1000; i++) {
            car.in.pumpCurrentAmps = car.in.mainContactVolts > 0 ? amps : 0;
            car.tick();
        }
        assertThat(car.active(TroubleCode.SENDER_SUSPECT)).isFalse();
        assertThat(car.active(TroubleCode.PRIME_FAILED)).isTrue();
        assertThat(car.out.state).isEqualTo(PumpState.PRIME);
        assertThat(car.out.permission).isEqualTo(DrivePermission.WITHHELD);
    }

    @ParameterizedTest
    @CsvSource({"8.9, SUPPLY_LOW", "16.1, SUPPLY_HIGH"})
    @Requirement("LH-EL-1")
    void shouldReportABusOutOfBoundsAndLetThePumpCommandStand(double volts, TroubleCode code) {
        TestCar car = standing(Calibration.builder());
        car.in.busVolts = volts;
        car.run(0.6);
        assertThat(car.out.activeCodes).isEqualTo(code.bit());
        assertThat(car.out.pumpWanted).isTrue();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);
        car.in.busVolts = 13;
        car.run(0.6);
        assertThat(car.out.activeCodes).isZero();
    }

    @Test
    @Requirement("LH-TC-1")
    void shouldKeepAFreezeFrameAndClearTheCodeAfterThreeKeyCycles() {
        TestCar car = new TestCar(
                Calibration.builder().set(Key.PUMP_CURRENT_FITTED, true).build());
        car.in.pumpCurrentAmps = 12;
        car.run(1);
        car.rpm = 300;
        car.run(1);
        car.in.busVolts = 8;
        long since = car.nowNs;
        for (int tick = 1; tick <= 200; tick++) {
            car.in.torqueRequestNm = tick;
            car.tick();
        }
        StoredCodes codes = car.controller.storedCodes();
        TroubleCode low = TroubleCode.SUPPLY_LOW;
        assertThat(codes.count(low)).isEqualTo(1);
        assertThat((codes.firstNs(low) - since) * 1e-9).isCloseTo(0.505, within(1e-9));
        assertThat(codes.lastNs(low)).isEqualTo(car.nowNs);
        assertThat(codes.frozen(low, FrozenValue.SHAFT_SPEED)).isCloseTo(300 * Math.PI / 30, within(0.1));
        assertThat(codes.frozen(low, FrozenValue.LINE_PRESSURE)).isCloseTo(8e5, within(1e-3));
        assertThat(codes.frozen(low, FrozenValue.BUS_VOLTAGE)).isEqualTo(8);
        assertThat(codes.frozen(low, FrozenValue.MAIN_CONTACT_VOLTAGE)).isEqualTo(TestCar.BUS_VOLTS);
        assertThat(codes.frozen(low, FrozenValue.STANDBY_CONTACT_VOLTAGE)).isEqualTo(TestCar.BUS_VOLTS);
        assertThat(codes.frozen(low, FrozenValue.PUMP_CURRENT)).isEqualTo(12);
        assertThat(codes.frozen(low, FrozenValue.OIL_TEMPERATURE)).isEqualTo(60);
        assertThat(codes.frozen(low, FrozenValue.TORQUE_REQUEST)).isEqualTo(101);
        assertThat(codes.frozen(low, FrozenValue.PUMP_STATE)).isEqualTo(PumpState.ELECTRIC.ordinal());

        car.in.busVolts = 13;
        for (int cycle = 1; cycle <= 4; cycle++) {
            keyOff(car.pressureBar(0));
            assertThat(car.stored(low)).isTrue();
            car.in.keyOn = true;
            // A prime of many steps is one key cycle.
            car.run(0.5).pressureBar(8).run(0.5);
        }
        assertThat(car.stored(low)).isFalse();
    }
}
