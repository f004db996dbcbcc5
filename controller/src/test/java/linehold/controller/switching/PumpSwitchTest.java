package linehold.controller.switching;

import static org.assertj.core.api.Assertions.assertThat;

import linehold.controller.Requirement;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import org.junit.jupiter.api.Test;

class PumpSwitchTest {
    private static final long MS = 1_000_000;
    private static final long SECOND = 1000 * MS;

    private final Situation now = new Situation();
    private PumpSwitch pump = new PumpSwitch(Calibration.builder().build());
    private long timeNs = 5 * SECOND;
    private boolean selfTestOver = true;

    private PumpState at(long ns) {
        timeNs = ns;
        now.selfTestOver = selfTestOver;
        pump.update(ns, now);
        return pump.state();
    }

    private PumpState after(long ns) {
        return at(timeNs + ns);
    }

    private void prime() {
        now.keyOn = true;
        now.pressureKnown = true;
        now.pressureHolds = true;
        now.oilTemperatureC = 20;
        after(0);
        after(MS);
    }

    private void fast() {
        now.belowSwitchOn = false;
        now.aboveSwitchOff = true;
        now.handOverReady = true;
    }

    private void slow() {
        now.belowSwitchOn = true;
        now.aboveSwitchOff = false;
        now.handOverReady = false;
    }

    @Test
    void shouldBeOffForThePowerUpReasonAtFirst() {
        assertThat(pump.state()).isEqualTo(PumpState.OFF);
        assertThat(pump.reason()).isEqualTo(SwitchReason.POWER_UP);
        assertThat(pump.pumpWanted()).isFalse();
        assertThat(after(SECOND)).isEqualTo(PumpState.OFF);
    }

    @Test
    @Requirement("LH-RL-5")
    void shouldNotLeavePrimeBeforeTheRelaysAreTested() {
        selfTestOver = false;
        prime();
        assertThat(after(10 * SECOND)).isEqualTo(PumpState.PRIME);
        selfTestOver = true;
        assertThat(after(MS)).isEqualTo(PumpState.ELECTRIC);
    }

    @Test
    @Requirement({"LH-RL-5", "LH-SW-9"})
    void shouldCountThePrimeTimeFromTheEndOfTheRelayTest() {
        now.keyOn = true;
        now.oilTemperatureC = 20;
        selfTestOver = false;
        after(0);
        after(SECOND);
        selfTestOver = true;
        assertThat(after(1499 * MS)).isEqualTo(PumpState.PRIME);
        assertThat(after(MS)).isEqualTo(PumpState.ELECTRIC);
    }

    @Test
    @Requirement("LH-SW-9")
    void shouldLeavePrimeWhenPressureHolds() {
        now.keyOn = true;
        now.pressureKnown = true;
        now.oilTemperatureC = 20;
        assertThat(after(0)).isEqualTo(PumpState.PRIME);
        assertThat(pump.pumpWanted()).isTrue();
        assertThat(pump.reason()).isEqualTo(SwitchReason.KEY_ON);
        assertThat(after(60 * SECOND)).isEqualTo(PumpState.PRIME);
        now.pressureHolds = true;
        assertThat(after(MS)).isEqualTo(PumpState.ELECTRIC);
        assertThat(pump.reason()).isEqualTo(SwitchReason.PRIMED);
    }

    @Test
    @Requirement("LH-SW-9")
    void shouldLeavePrimeAfterThePrimeTimeOfThisOilTemperatureWhereNoSenderTells() {
        now.keyOn = true;
        now.oilTemperatureC = 0;
        assertThat(at(10 * SECOND)).isEqualTo(PumpState.PRIME);
        // 3 s at −20 °C to 1.5 s at 20 °C.
        assertThat(at(10 * SECOND + 2249 * MS)).isEqualTo(PumpState.PRIME);
        assertThat(at(10 * SECOND + 2250 * MS)).isEqualTo(PumpState.ELECTRIC);
    }

    @Test
    @Requirement("LH-SW-4")
    void shouldRunAtLeastTheMinimumRunTime() {
        prime();
        fast();
        assertThat(after(MS)).isEqualTo(PumpState.OVERLAP);
        assertThat(at(7 * SECOND - 1)).isEqualTo(PumpState.OVERLAP);
        assertThat(at(7 * SECOND)).isEqualTo(PumpState.INTERNAL);
        assertThat(pump.reason()).isEqualTo(SwitchReason.HAND_OVER_CONFIRMED);
        assertThat(pump.pumpWanted()).isFalse();
    }

    @Test
    @Requirement("LH-SW-4")
    void shouldSwitchOnAgainWithoutAnyRest() {
        prime();
        fast();
        after(MS);
        assertThat(after(3 * SECOND)).isEqualTo(PumpState.INTERNAL);
        slow();
        assertThat(after(0)).isEqualTo(PumpState.ELECTRIC);
        assertThat(pump.reason()).isEqualTo(SwitchReason.SPEED_BELOW_SWITCH_ON);

        // The new run has a minimum of its own.
        fast();
        after(MS);
        assertThat(after(1998 * MS)).isEqualTo(PumpState.OVERLAP);
        assertThat(after(MS)).isEqualTo(PumpState.INTERNAL);
    }

    @Test
    @Requirement("LH-SW-4")
    void shouldKeepRunningForTheMinimumRunTimeAfterKeyOff() {
        prime();
        now.keyOn = false;
        now.standstillConfirmed = true;
        assertThat(at(7 * SECOND - 1)).isEqualTo(PumpState.ELECTRIC);
        assertThat(at(7 * SECOND)).isEqualTo(PumpState.OFF);
        assertThat(pump.reason()).isEqualTo(SwitchReason.KEY_OFF_AT_STANDSTILL);
    }

    @Test
    void shouldNotCountOneStateChangeWhileThePumpRunsAsANewRun() {
        prime();
        now.aboveSwitchOff = true;
        after(SECOND);
        now.aboveSwitchOff = false;
        after(SECOND);
        assertThat(pump.state()).isEqualTo(PumpState.ELECTRIC);
        assertThat(pump.reason()).isEqualTo(SwitchReason.SPEED_NOT_ABOVE_SWITCH_OFF);
        fast();
        after(MS);
        assertThat(after(MS)).isEqualTo(PumpState.INTERNAL);
    }

    @Test
    @Requirement("LH-SW-8")
    void shouldStayOnForTheCoolDownTimeAfterTooManyRelayOperationsAndCountIt() {
        pump = new PumpSwitch(Calibration.builder()
                .set(Key.RELAY_OPERATIONS_PER_MINUTE, 4)
                .set(Key.COOL_DOWN_TIME, 20)
                .build());
        prime(); // first operation
        for (int round = 0; round < 2; round++) {
            fast();
            after(MS);
            assertThat(after(3 * SECOND)).isEqualTo(PumpState.INTERNAL);
            assertThat(pump.coolDowns()).isZero();
            slow();
            after(MS);
        }
        // The fifth operation within the minute was the second switching on by speed.
        assertThat(pump.coolDowns()).isEqualTo(1);
        fast();
        after(MS);
        assertThat(after(20 * SECOND - 2 * MS)).isEqualTo(PumpState.OVERLAP);
        assertThat(after(MS)).isEqualTo(PumpState.INTERNAL);
        assertThat(pump.coolDowns()).isEqualTo(1);
    }

    @Test
    @Requirement("LH-SW-8")
    void shouldNotCoolDownWhenTheOperationsAreSpreadOut() {
        pump = new PumpSwitch(
                Calibration.builder().set(Key.RELAY_OPERATIONS_PER_MINUTE, 4).build());
        prime();
        for (int round = 0; round < 20; round++) {
            fast();
            after(MS);
            assertThat(after(15 * SECOND)).isEqualTo(PumpState.INTERNAL);
            slow();
            after(15 * SECOND);
        }
        assertThat(pump.coolDowns()).isZero();
    }
}
