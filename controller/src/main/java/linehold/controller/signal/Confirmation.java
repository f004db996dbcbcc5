package linehold.controller.signal;

/**
 * A condition that must last before it counts, with its own time for coming and for going. "Confirmed" means true on
 * every tick for the rise time; a rise time of 0 confirms in the same tick.
 */
public final class Confirmation {
    private final long riseNs;
    private final long fallNs;
    private boolean confirmed;
    private boolean changing;
    private long changingSinceNs;

    /**
     * @param riseNs how long the condition must hold to be confirmed, ns
     * @param fallNs how long it must be gone to be no longer confirmed, ns
     */
    public Confirmation(long riseNs, long fallNs) {
        this.riseNs = riseNs;
        this.fallNs = fallNs;
    }

    /** Takes the condition of this tick; returns whether it is confirmed. */
    public boolean update(boolean condition, long nowNs) {
        if (condition == confirmed) {
            changing = false;
            return confirmed;
        }
        if (!changing) {
            changing = true;
            changingSinceNs = nowNs;
        }
        if (nowNs - changingSinceNs >= (condition ? riseNs : fallNs)) {
            confirmed = condition;
            changing = false;
        }
        return confirmed;
    }

    public boolean confirmed() {
        return confirmed;
    }

    /** Forgets everything: not confirmed, no time running. */
    public void reset() {
        confirmed = false;
        changing = false;
    }
}
