package linehold.rig.adapter.web;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;
import java.util.function.LongSupplier;
import linehold.controller.DrivePermission;
import linehold.controller.calibration.Key;
import linehold.rig.adapter.simulated.SimulatedHand;
import linehold.rig.adapter.simulated.SimulatedPerson;
import linehold.rig.adapter.simulated.SimulatedRig;
import linehold.rig.loop.ControlLoop;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRing;
import linehold.rig.port.RigClock;
import linehold.rig.port.Watchdog;
import linehold.rig.procedure.Bench;
import linehold.rig.procedure.BenchDesk;
import linehold.rig.procedure.BenchKey;
import linehold.rig.procedure.KeyGuard;
import linehold.rig.procedure.ProcedureEngine;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;

/**
 * The simulated bench as {@code linehold bench --page} has it, on a thread of its own. Its time passes tick by tick, some
 * times faster than the world's but never by more than a tick, so that what is measured does not depend on the machine.
 */
final class PacedBench implements AutoCloseable {
    final Build build = BuildFile.loadNamed("demonstration");
    final TickRing ring = new TickRing(1 << 12);
    final BenchDesk desk;
    private final SimulatedRig car;
    private final ControlLoop loop;
    private final Thread ticking;
    private final Thread looking;
    private final AtomicLong ticks = new AtomicLong();
    private final AtomicInteger unsafe = new AtomicInteger();
    private volatile boolean mainFeeds;
    private volatile boolean withheld;
    private volatile boolean closing;

    /**
     * @param faster how many times
     * @param keyClock by which the bench key is lost, ns
     */
    PacedBench(double faster, LongSupplier keyClock, Path records) {
        Bench bench = new Bench(build, 3);
        ProcedureEngine engine = new ProcedureEngine(bench);
        AtomicInteger secrets = new AtomicInteger();
        BenchKey key = new BenchKey(keyClock, () -> "secret-" + secrets.incrementAndGet());
        SimulatedHand hand =
                new SimulatedHand(engine::shaft, build.calibration().get(Key.CONTROL_PERIOD));
        SimulatedPerson person = new SimulatedPerson(engine, hand, false);
        desk = new BenchDesk(
                engine, bench, key, person, "simulated, seed 1", () -> Instant.parse("2026-01-02T03:04:05Z"), records);
        car = new SimulatedRig(build, hand, 60, 1, List.of());
        person.watch(car);
        KeyGuard guard = new KeyGuard(key, engine, person);
        boolean normallyClosed = build.calibration().is(Key.NORMALLY_CLOSED_CONTACT);
        loop = new ControlLoop(
                car,
                (nowNs, in, out) -> {
                    boolean held = key.held();
                    guard.step(nowNs, in, out);
                    mainFeeds = out.mainRelayCoil != normallyClosed;
                    withheld = out.permission == DrivePermission.WITHHELD;
                    if (!held && !(mainFeeds && withheld)) {
                        unsafe.incrementAndGet();
                    }
                    ticks.incrementAndGet();
                },
                new PacedClock(faster),
                Watchdog.NONE,
                normallyClosed,
                build.calibration().ns(Key.CONTROL_PERIOD),
                new RigFaults(),
                ring);
        ticking = new Thread(loop::run, "paced-bench");
        looking = new Thread(this::look, "paced-bench-look");
        ticking.start();
        looking.start();
    }

    private void look() {
        while (!closing) {
            desk.look();
            LockSupport.parkNanos(5_000_000);
        }
    }

    boolean mainFeeds() {
        return mainFeeds;
    }

    /** The pump runs, drive is withheld. */
    boolean safe() {
        return mainFeeds && withheld;
    }

    /** Ticks without a held key in which the pump did not run, or drive was not withheld. */
    int unsafeTicks() {
        return unsafe.get();
    }

    long ticks() {
        return ticks.get();
    }

    @Override
    public void close() throws InterruptedException {
        closing = true;
        loop.stop();
        ticking.join();
        looking.join();
        car.close();
    }

    private static final class PacedClock implements RigClock {
        private final double faster;
        private long nowNs = 1_000_000_007;

        PacedClock(double faster) {
            this.faster = faster;
        }

        @Override
        public long nowNs() {
            return nowNs;
        }

        @Override
        public void sleepUntil(long ns) {
            if (ns > nowNs) {
                LockSupport.parkNanos(Math.round((ns - nowNs) / faster));
                nowNs = ns;
            }
        }
    }
}
