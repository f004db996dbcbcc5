package linehold.simulator.fault;

import java.util.List;

/** Applies faults to a run as their times come. */
public final class FaultInjector {
    private final List<Fault> faults;
    private final boolean[] active;
    private final FaultTargets targets;

    public FaultInjector(List<Fault> faults, FaultTargets targets) {
        this.faults = List.copyOf(faults);
        this.active = new boolean[faults.size()];
        this.targets = targets;
    }

    /** Brings every fault to the state that is due at {@code nowS}; times may only grow. */
    public void update(double nowS) {
        for (int i = 0; i < active.length; i++) {
            Fault fault = faults.get(i);
            boolean due = nowS >= fault.startS() && nowS < fault.endS();
            if (due && !active[i]) {
                fault.kind().begin(targets, fault.size());
            } else if (!due && active[i]) {
                fault.kind().end(targets);
            }
            if (due) {
                fault.kind().during(targets, fault.size(), nowS - fault.startS());
            }
            active[i] = due;
        }
    }
}
