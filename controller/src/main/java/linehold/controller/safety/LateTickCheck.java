package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;

/** LH-TK-4: a late step is counted, a very late one raises a code until key-off. */
public final class LateTickCheck {
    private final long lateNs;
    private final long limitNs;
    private long lateTicks;
    private boolean tooLate;

    public LateTickCheck(Calibration calibration) {
        lateNs = 2 * calibration.ns(Key.CONTROL_PERIOD);
        limitNs = calibration.ns(Key.LATE_TICK_LIMIT);
    }

    /** Takes the time since the step before, ns. */
    public void update(long sinceLastNs) {
        if (sinceLastNs > lateNs) {
            lateTicks++;
        }
        if (sinceLastNs > limitNs) {
            tooLate = true;
        }
    }

    public void clearAtKeyOff() {
        tooLate = false;
    }

    /** Steps later than two periods since power-up. */
    public long lateTicks() {
        return lateTicks;
    }

    public boolean active() {
        return tooLate;
    }
}
