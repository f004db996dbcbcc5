package linehold.rig.adapter.simulated;

import linehold.rig.port.RigClock;

/** Time that passes only when somebody sleeps: a simulated rig then runs as fast as it can, and always the same. */
public final class SimulatedClock implements RigClock {
    private long nowNs;

    @Override
    public long nowNs() {
        return nowNs;
    }

    @Override
    public void sleepUntil(long ns) {
        nowNs = Math.max(nowNs, ns);
    }
}
