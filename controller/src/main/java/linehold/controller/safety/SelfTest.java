package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;

/**
 * LH-RL-5: at key-on each relay is operated once and read back. With nothing on no voltage may stand behind the contacts;
 * the standby relay must close, then open; then the main relay must close, and prime goes on with it.
 *
 * <p>A controller that has just started knows nothing of the shaft. The main relay feeds the pump until the shaft is known
 * to stand: no edge for as long as one pulse takes at standstill speed. An edge ends the test and the pump primes on; the
 * test then counts as not done.
 */
final class SelfTest {
    private enum Phase {
        OVER,
        WAITING,
        ALL_OFF,
        STANDBY_ON,
        STANDBY_OFF,
        MAIN_ON
    }

    private final boolean standbyFitted;
    private final long stillNs;
    private final long readbackNs;
    private final long releaseNs;

    private Phase phase = Phase.OVER;
    private SelfTestState state = SelfTestState.NOT_DONE;
    private boolean failed;
    private boolean wasPriming;
    private long phaseSinceNs;
    private boolean started;
    private long edgesBefore;
    private long stillSinceNs;
    private boolean mainStuckOff;
    private boolean standbyStuckOff;
    private boolean voltageStays;

    SelfTest(Calibration calibration) {
        standbyFitted = calibration.is(Key.STANDBY_RELAY_FITTED);
        double pulseRad = 2 * Math.PI / calibration.get(Key.PULSES_PER_REVOLUTION);
        stillNs = (long) (1e9 * pulseRad / calibration.get(Key.STANDSTILL_SPEED));
        readbackNs = calibration.ns(Key.RELAY_READBACK_TIME);
        releaseNs = calibration.ns(Key.SELF_TEST_RELEASE_TIME);
    }

    /**
     * @param judgeable whether the bus is high enough to tell a closed contact from an open one
     * @param voltage whether bus voltage stands behind the contacts
     * @param closed whether that, or pump current where no voltage is read, shows a sound closed contact
     * @param missing whether pump current is missing, and pump or sensor not yet found to be at fault
     */
    void update(long nowNs, PumpSigns signs, boolean judgeable, boolean voltage, boolean closed, boolean missing) {
        boolean edgeCame = edgeCame(nowNs, signs.edges);
        mainStuckOff = false;
        standbyStuckOff = false;
        voltageStays = false;
        if (signs.priming && !wasPriming) {
            state = SelfTestState.RUNNING;
            failed = false;
            enter(Phase.WAITING, nowNs);
        }
        wasPriming = signs.priming;
        if (phase == Phase.OVER) {
            return;
        }
        boolean mayNotOpen = edgeCame || signs.pickupLost || !judgeable;
        if (!signs.priming || mayNotOpen) {
            end(SelfTestState.NOT_DONE);
        } else {
            advance(nowNs, voltage, closed, missing);
        }
    }

    private boolean edgeCame(long nowNs, long edges) {
        boolean came = started && edges != edgesBefore;
        if (came || !started) {
            stillSinceNs = nowNs;
        }
        started = true;
        edgesBefore = edges;
        return came;
    }

    /** A phase that is over at once is passed in the same tick. */
    private void advance(long nowNs, boolean voltage, boolean closed, boolean missing) {
        if (phase == Phase.WAITING && still(nowNs)) {
            enter(Phase.ALL_OFF, nowNs);
        }
        if (phase == Phase.ALL_OFF) {
            if (!voltage) {
                enter(standbyFitted ? Phase.STANDBY_ON : Phase.MAIN_ON, nowNs);
                return;
            }
            if (nowNs - phaseSinceNs >= releaseNs) {
                // Under a voltage that stays no contact can be seen to close.
                voltageStays = true;
                end(SelfTestState.FAILED);
            }
        } else if (phase == Phase.STANDBY_ON) {
            standbyStuckOff = !closed && nowNs - phaseSinceNs >= readbackNs;
            failed |= standbyStuckOff;
            if (closed || standbyStuckOff) {
                enter(Phase.STANDBY_OFF, nowNs);
            }
        } else if (phase == Phase.STANDBY_OFF) {
            voltageStays = voltage && nowNs - phaseSinceNs >= releaseNs;
            failed |= voltageStays;
            if (!voltage || voltageStays) {
                enter(Phase.MAIN_ON, nowNs);
            }
        } else if (phase == Phase.MAIN_ON) {
            mainStuckOff = !closed && nowNs - phaseSinceNs >= readbackNs;
            if (closed && !missing || mainStuckOff) {
                end(failed || mainStuckOff ? SelfTestState.FAILED : SelfTestState.PASSED);
            }
        }
    }

    private void enter(Phase next, long nowNs) {
        phase = next;
        phaseSinceNs = nowNs;
    }

    private void end(SelfTestState result) {
        phase = Phase.OVER;
        state = result;
    }

    /** Whether the shaft stands: no edge came for as long as one pulse takes at standstill speed. */
    boolean still(long nowNs) {
        return started && nowNs - stillSinceNs >= stillNs;
    }

    /** Whether nothing of the test is left to do, done or not. */
    boolean over() {
        return phase == Phase.OVER;
    }

    SelfTestState state() {
        return state;
    }

    /** Whether the test lets the main relay feed the pump now. */
    boolean allowsMain() {
        return phase == Phase.OVER || phase == Phase.WAITING || phase == Phase.MAIN_ON;
    }

    /** Whether the test feeds the pump through the standby relay now. */
    boolean wantsStandby() {
        return phase == Phase.STANDBY_ON;
    }

    /** Found at this tick: the main relay does not close. */
    boolean mainStuckOff() {
        return mainStuckOff;
    }

    /** Found at this tick: the standby relay does not close. */
    boolean standbyStuckOff() {
        return standbyStuckOff;
    }

    /** Found at this tick: with nothing on, voltage stays behind the contacts. */
    boolean voltageStays() {
        return voltageStays;
    }
}
