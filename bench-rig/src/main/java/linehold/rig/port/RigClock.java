package linehold.rig.port;

/** Monotonic time. Pickup edges are stamped by the same clock. */
public interface RigClock {
    /** ns, any origin. */
    long nowNs();

    /** Waits until a moment; returns at once where it has passed. */
    void sleepUntil(long ns);
}
