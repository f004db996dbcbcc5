package linehold.rig.adapter.store;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.IntConsumer;
import linehold.controller.Controller;
import linehold.controller.calibration.Key;
import linehold.rig.adapter.simulated.SimulatedRig;
import linehold.rig.loop.ControlLoop;
import linehold.rig.loop.KeptCodes;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRing;
import linehold.rig.loop.TickRow;
import linehold.rig.port.RigClock;
import linehold.rig.port.Watchdog;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.drive.Drives;
import linehold.simulator.fault.Fault;

/** The demonstration car behind the control loop. */
public final class TestRig {
    private static final int RING_ROWS = 1 << 16;
    private static final long START_NS = 14_400_000_123_456L;

    public final Build build = Builds.demonstration();
    public final Controller controller = new Controller(build.calibration());
    public final KeptCodes codes = new KeptCodes(controller);
    public final RigFaults faults = new RigFaults();
    public final TickRing ring = new TickRing(RING_ROWS);
    /** Every row that was published. */
    public final List<double[]> rows = new ArrayList<>();

    /** Called on the loop's thread after each tick with the number of ticks so far. */
    public IntConsumer afterTick = ticks -> {};

    private int ticks;
    private final TickRing.Cursor cursor = ring.follow();

    public RecordingFacts facts() {
        return RecordingFacts.of(
                "test", build.name(), build.sha256(), "simulated", build.calibration(), controller.storedCodes());
    }

    /** A clock that runs as fast as it is asked; ticks are a little late. */
    private static final class FastClock implements RigClock {
        private final SplittableRandom random = new SplittableRandom(3);
        private long nowNs = START_NS;

        @Override
        public long nowNs() {
            return nowNs;
        }

        @Override
        public void sleepUntil(long ns) {
            nowNs = Math.max(nowNs, ns) + 60_000 + random.nextInt(40_000);
        }
    }

    /** Drives until the drive ends, or so many ticks, as fast as it goes. */
    public void drive(String drive, List<Fault> carFaults, long mostTicks) {
        drive(drive, carFaults, mostTicks, new FastClock());
    }

    /** The same by another clock. */
    public void drive(String drive, List<Fault> carFaults, long mostTicks, RigClock clock) {
        SimulatedRig car = new SimulatedRig(build, Drives.resolve(drive, build), 60, 1, carFaults);
        ControlLoop[] loop = new ControlLoop[1];
        Watchdog watchdog = () -> {
            double[] row = new double[TickRow.LENGTH];
            while (cursor.read(row)) {
                rows.add(row.clone());
                ticks++;
            }
            afterTick.accept(ticks);
            if (ticks == mostTicks) {
                loop[0].stop();
            }
        };
        loop[0] = new ControlLoop(
                car,
                codes,
                clock,
                watchdog,
                build.calibration().is(Key.NORMALLY_CLOSED_CONTACT),
                build.calibration().ns(Key.CONTROL_PERIOD),
                faults,
                ring);
        loop[0].run();
        car.close();
    }
}
