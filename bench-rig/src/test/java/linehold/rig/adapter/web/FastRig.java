package linehold.rig.adapter.web;

import java.util.List;
import java.util.concurrent.locks.LockSupport;
import linehold.controller.Controller;
import linehold.controller.calibration.Key;
import linehold.rig.adapter.simulated.SimulatedRig;
import linehold.rig.loop.ControlLoop;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRing;
import linehold.rig.port.RigClock;
import linehold.rig.port.Watchdog;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.drive.Drives;
import linehold.simulator.fault.LiveFaults;

/** A simulated rig on a thread of its own whose time runs faster than the world's, so that a test sees a hand-over soon. */
final class FastRig implements AutoCloseable {
    final Build build = BuildFile.loadNamed("demonstration");
    final TickRing ring = new TickRing(1 << 14);
    private final SimulatedRig car;
    private final ControlLoop loop;
    private final Thread thread;

    /** @param faster how many times */
    FastRig(String drive, double faster) {
        car = new SimulatedRig(build, Drives.resolve(drive, build), 60, 1, List.of());
        Controller controller = new Controller(build.calibration());
        loop = new ControlLoop(
                car,
                controller::step,
                new FastClock(faster),
                Watchdog.NONE,
                build.calibration().is(Key.NORMALLY_CLOSED_CONTACT),
                build.calibration().ns(Key.CONTROL_PERIOD),
                new RigFaults(),
                ring);
        thread = new Thread(loop::run, "fast-rig");
    }

    FastRig start() {
        thread.start();
        return this;
    }

    LiveFaults liveFaults() {
        return car.liveFaults();
    }

    boolean running() {
        return thread.isAlive();
    }

    @Override
    public void close() throws InterruptedException {
        loop.stop();
        thread.join();
        car.close();
    }

    private record FastClock(double faster) implements RigClock {
        @Override
        public long nowNs() {
            return Math.round(System.nanoTime() * faster);
        }

        @Override
        public void sleepUntil(long ns) {
            for (long left = ns - nowNs(); left > 0; left = ns - nowNs()) {
                LockSupport.parkNanos(Math.round(left / faster));
            }
        }
    }
}
