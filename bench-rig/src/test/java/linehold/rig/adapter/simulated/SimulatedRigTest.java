package linehold.rig.adapter.simulated;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.List;
import linehold.controller.Controller;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.calibration.Key;
import linehold.controller.tick.TickField;
import linehold.rig.loop.ControlLoop;
import linehold.rig.loop.Decision;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.SteppedClock;
import linehold.rig.loop.TickRing;
import linehold.rig.port.Watchdog;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.drive.Drive;
import linehold.simulator.drive.Drives;
import linehold.simulator.run.ClosedLoop;
import org.junit.jupiter.api.Test;

class SimulatedRigTest {
    private final Build build = BuildFile.loadNamed("demonstration");
    private final Drive drive = Drives.resolve("stop-and-go", build);
    private final SteppedClock clock = new SteppedClock();

    private ControlLoop loop(SimulatedRig car, Decision decision) {
        return new ControlLoop(
                car,
                decision,
                clock,
                Watchdog.NONE,
                build.calibration().is(Key.NORMALLY_CLOSED_CONTACT),
                build.calibration().ns(Key.CONTROL_PERIOD),
                new RigFaults(),
                new TickRing(64));
    }

    private static double[] row(Inputs in, Outputs out) {
        double[] row = new double[TickField.values().length];
        for (TickField field : TickField.values()) {
            row[field.ordinal()] = field.get(in, out);
        }
        return row;
    }

    /** Punctual ticks make the rig the very run that was proved. */
    @Test
    void shouldDriveTheSameCarAsAProof() {
        List<double[]> proved = new ArrayList<>();
        new ClosedLoop(build, 60, 1).run(drive, moment -> proved.add(row(moment.inputs, moment.outputs)));

        List<double[]> driven = new ArrayList<>();
        Controller controller = new Controller(build.calibration());
        long startNs = clock.nowNs;
        try (SimulatedRig car = new SimulatedRig(build, drive, 60, 1, List.of())) {
            loop(car, (nowNs, in, out) -> {
                        controller.step(nowNs, in, out);
                        double[] row = row(in, out);
                        row[TickField.PICKUP_LAST_EDGE_NS.ordinal()] -= startNs;
                        driven.add(row);
                    })
                    .run();
        }
        assertThat(driven).hasSameSizeAs(proved);
        for (int i = 0; i < proved.size(); i++) {
            assertThat(driven.get(i)).as("tick %d", i).isEqualTo(proved.get(i));
        }
    }

    @Test
    void shouldAllocateNothingInSteadyState() {
        ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
        Controller controller = new Controller(build.calibration());
        long[] allocated = new long[2];
        int[] ticks = new int[1];
        try (SimulatedRig car = new SimulatedRig(build, drive, 60, 1, List.of())) {
            loop(car, (nowNs, in, out) -> {
                        controller.step(nowNs, in, out);
                        ticks[0]++;
                        // After ten seconds of warming up: the reading itself allocates nothing here.
                        if (ticks[0] == 2000 || ticks[0] == 8000) {
                            allocated[ticks[0] / 8000] = threads.getCurrentThreadAllocatedBytes();
                        }
                    })
                    .run();
        }
        assertThat(allocated[0]).isPositive();
        assertThat(allocated[1] - allocated[0]).isZero();
    }
}
