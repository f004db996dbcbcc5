package linehold.rig.loop;

import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.rig.port.Car;
import linehold.rig.port.RigClock;
import linehold.rig.port.Watchdog;

/**
 * The fixed tick: read, decide, write, publish, feed the watchdog. It runs on the thread that calls {@link #run}, at
 * absolute deadlines, and allocates nothing in steady state. A port that fails is a value, never the end of the loop; only
 * a defect ends it, and then, as at every end, the outputs are set to their safe levels first: the pump runs.
 */
public final class ControlLoop {
    /** An input that has never delivered is given this long, then the controller is told that it is absent. */
    private static final long LONGEST_START_NS = 2_000_000_000L;

    private final Car car;
    private final Decision decision;
    private final RigClock clock;
    private final Watchdog watchdog;
    private final long periodNs;
    private final PortReader reader;
    private final PortWriter writer;
    private final RigFaults faults;
    private final TickRing ring;
    private final Lateness lateness = new Lateness();
    private final Inputs in = new Inputs();
    private final Outputs out = new Outputs();
    private volatile boolean stopping;

    /**
     * @param normallyClosed the pump hangs on the normally closed contact of the main relay (LH-RL-6)
     * @param periodNs control period, ns
     */
    public ControlLoop(
            Car car,
            Decision decision,
            RigClock clock,
            Watchdog watchdog,
            boolean normallyClosed,
            long periodNs,
            RigFaults faults,
            TickRing ring) {
        this.car = car;
        this.decision = decision;
        this.clock = clock;
        this.watchdog = watchdog;
        this.periodNs = periodNs;
        this.faults = faults;
        this.ring = ring;
        reader = new PortReader(car.inputs(), faults);
        writer = new PortWriter(car.outputs(), faults, normallyClosed);
    }

    /** Ticks until {@link #stop} is called or the car has nothing more to come. */
    public void run() {
        try {
            awaitInputs();
            tickOn();
        } finally {
            writer.safe();
            car.end();
        }
    }

    /** Ends the loop after the tick of the moment. From any thread. */
    public void stop() {
        stopping = true;
    }

    public Lateness lateness() {
        return lateness;
    }

    private void awaitInputs() {
        long sinceNs = clock.nowNs();
        long nowNs = sinceNs;
        while (!stopping && !car.alive() && nowNs - sinceNs < LONGEST_START_NS) {
            writer.safe();
            watchdog.feed();
            clock.sleepUntil(nowNs + periodNs);
            nowNs = clock.nowNs();
        }
    }

    private void tickOn() {
        long dueNs = clock.nowNs();
        while (!stopping) {
            clock.sleepUntil(dueNs);
            long nowNs = clock.nowNs();
            if (!car.begin(nowNs)) {
                return;
            }
            tick(nowNs, nowNs - dueNs);
            dueNs = nextDueNs(dueNs);
        }
    }

    private void tick(long nowNs, long lateNs) {
        reader.read(in);
        decision.step(nowNs, in, out);
        writer.write(out);
        car.end();
        lateness.add(lateNs);
        ring.publish(nowNs, lateNs, faults.bits(), in, out);
        watchdog.feed();
    }

    /** Deadlines stay on their grid: a tick that took too long makes the next one late, and whole ones are left out. */
    private long nextDueNs(long dueNs) {
        long behindNs = clock.nowNs() - (dueNs + periodNs);
        long skipped = behindNs > 0 ? behindNs / periodNs : 0;
        lateness.skip(skipped);
        return dueNs + (1 + skipped) * periodNs;
    }
}
