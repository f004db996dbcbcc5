package linehold.rig.loop;

import java.util.concurrent.atomic.AtomicLong;

/** The faults of the rig that are present now. The loop writes those of its ports, other threads their own. */
public final class RigFaults {
    private final AtomicLong bits = new AtomicLong();

    public void set(RigFault fault, boolean present) {
        long bit = fault.bit();
        long now = bits.get();
        while ((now & bit) != 0 != present && !bits.compareAndSet(now, now ^ bit)) {
            now = bits.get();
        }
    }

    /** Bits of {@link RigFault}. */
    public long bits() {
        return bits.get();
    }
}
