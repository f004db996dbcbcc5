package linehold.rig.app;

import java.util.List;
import linehold.controller.Controller;
import linehold.controller.calibration.Key;
import linehold.rig.adapter.simulated.SimulatedClock;
import linehold.rig.adapter.simulated.SimulatedRig;
import linehold.rig.loop.ControlLoop;
import linehold.rig.loop.KeptCodes;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRing;
import linehold.rig.port.Watchdog;
import linehold.simulator.build.Build;
import linehold.simulator.drive.Drives;

/**
 * A second of ticks on paper before the first real one, so that Java has loaded what a tick needs: the first ticks would
 * otherwise wait for it, be late, and raise the code for that. The lines keep their safe levels meanwhile: the pump runs.
 */
final class WarmUp implements Watchdog {
    private static final int TICKS = 200;
    private static final String DRIVE = "stop-and-go";
    private static final double OIL_C = 60;

    private final ControlLoop loop;
    private int ticks;

    private WarmUp(Build build, SimulatedRig car) {
        loop = new ControlLoop(
                car,
                new KeptCodes(new Controller(build.calibration())),
                new SimulatedClock(),
                this,
                build.calibration().is(Key.NORMALLY_CLOSED_CONTACT),
                build.calibration().ns(Key.CONTROL_PERIOD),
                new RigFaults(),
                new TickRing(TICKS));
    }

    static void run(Build build) {
        try (SimulatedRig car = new SimulatedRig(build, Drives.resolve(DRIVE, build), OIL_C, 1, List.of())) {
            new WarmUp(build, car).loop.run();
        }
    }

    @Override
    public void feed() {
        ticks++;
        if (ticks == TICKS) {
            loop.stop();
        }
    }
}
