package linehold.rig.adapter.system;

import java.util.concurrent.locks.LockSupport;
import linehold.rig.port.RigClock;

/** The machine's monotonic clock; on Linux the one by which the kernel stamps edges of lines. */
public final class SystemClock implements RigClock {
    @Override
    public long nowNs() {
        return System.nanoTime();
    }

    @Override
    public void sleepUntil(long ns) {
        long leftNs = ns - System.nanoTime();
        while (leftNs > 0 && !Thread.currentThread().isInterrupted()) {
            LockSupport.parkNanos(leftNs);
            leftNs = ns - System.nanoTime();
        }
    }
}
