package linehold.rig.loop;

import linehold.rig.port.RigClock;

/** Time that passes only when somebody sleeps, or as a test says. */
public final class SteppedClock implements RigClock {
    public long nowNs = 1_000_000_007;

    @Override
    public long nowNs() {
        return nowNs;
    }

    @Override
    public void sleepUntil(long ns) {
        nowNs = Math.max(nowNs, ns);
    }
}
