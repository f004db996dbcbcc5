package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;

/**
 * LH-RL-4: a stalled pump rests between a stated number of retries. It rests only while the internal pump carries the
 * line; whenever that is in doubt the pump is tried again at once and stays on.
 */
final class StallRest {
    private final double most;
    private final long restNs;
    private int rests;
    private boolean resting;
    private long sinceNs;

    StallRest(Calibration calibration) {
        most = calibration.get(Key.PUMP_STALL_RETRIES);
        restNs = calibration.ns(Key.PUMP_STALL_REST_TIME);
    }

    /**
     * @param stalled seen stalled at this tick
     * @param runs seen running at this tick
     * @param internalPumpCarries whether the line does not need the electric pump
     */
    void update(long nowNs, boolean stalled, boolean runs, boolean internalPumpCarries) {
        if (runs) {
            rests = 0;
        }
        if (resting) {
            resting = internalPumpCarries && nowNs - sinceNs < restNs;
        } else if (stalled && internalPumpCarries && rests < most) {
            resting = true;
            sinceNs = nowNs;
            rests++;
        }
    }

    void clear() {
        rests = 0;
        resting = false;
    }

    boolean resting() {
        return resting;
    }
}
