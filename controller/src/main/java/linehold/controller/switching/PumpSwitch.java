package linehold.controller.switching;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.signal.Occurrences;

/** Holds the pump state, moves it along {@link Transition#TABLE}, and keeps the times that bind it. */
public final class PumpSwitch {
    private static final long MINUTE_NS = 60_000_000_000L;

    private final Transition[][] rows = Transition.byState();
    private final Calibration calibration;
    private final long minimumRunNs;
    private final long coolDownNs;
    private final Occurrences relayOperations;

    private PumpState state = PumpState.OFF;
    private SwitchReason reason = SwitchReason.POWER_UP;
    private long primingSinceNs;
    private long runningSinceNs;
    private boolean coolingDown;
    private long coolDownSinceNs;
    private long coolDowns;

    public PumpSwitch(Calibration calibration) {
        this.calibration = calibration;
        minimumRunNs = calibration.ns(Key.MINIMUM_RUN_TIME);
        coolDownNs = calibration.ns(Key.COOL_DOWN_TIME);
        relayOperations = new Occurrences((int) calibration.get(Key.RELAY_OPERATIONS_PER_MINUTE), MINUTE_NS);
    }

    /** Takes this tick's situation and makes at most one move. */
    public void update(long nowNs, Situation situation) {
        if (coolingDown && nowNs - coolDownSinceNs >= coolDownNs) {
            coolingDown = false;
        }
        situation.mayStop = !coolingDown && nowNs - runningSinceNs >= minimumRunNs;
        situation.primed = state == PumpState.PRIME && primed(nowNs, situation);
        for (Transition row : rows[state.ordinal()]) {
            if (row.guard().holds(situation)) {
                enter(row, nowNs);
                return;
            }
        }
    }

    /** LH-SW-9: pressure tells where it can, time where it cannot. Never before the relays are tested (LH-RL-5). */
    private boolean primed(long nowNs, Situation situation) {
        if (!situation.selfTestOver) {
            primingSinceNs = nowNs;
            return false;
        }
        if (situation.pressureKnown) {
            return situation.pressureHolds;
        }
        double primeS = calibration.at(Key.PRIME_TIME, situation.oilTemperatureC);
        return nowNs - primingSinceNs >= primeS * 1e9;
    }

    /** The only writer of the state. */
    private void enter(Transition row, long nowNs) {
        boolean ran = state.pumpRuns();
        state = row.to();
        reason = row.reason();
        primingSinceNs = nowNs;
        if (state.pumpRuns() != ran) {
            noteRelayOperation(nowNs);
        }
    }

    /** LH-SW-8. An operation too many binds from the next switching on: the contact needs rest, the clutches come first. */
    private void noteRelayOperation(long nowNs) {
        relayOperations.add(nowNs);
        if (!state.pumpRuns()) {
            return;
        }
        runningSinceNs = nowNs;
        if (relayOperations.tooMany(nowNs)) {
            coolingDown = true;
            coolDownSinceNs = nowNs;
            coolDowns++;
        }
    }

    public PumpState state() {
        return state;
    }

    /** Reason of the last move. */
    public SwitchReason reason() {
        return reason;
    }

    /** Whether the electric pump shall run. */
    public boolean pumpWanted() {
        return state.pumpRuns();
    }

    /** How often too many relay operations kept the pump on (LH-SW-8). */
    public long coolDowns() {
        return coolDowns;
    }
}
