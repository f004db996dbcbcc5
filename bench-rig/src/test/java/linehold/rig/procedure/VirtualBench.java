package linehold.rig.procedure;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.DrivePermission;
import linehold.controller.calibration.Key;
import linehold.rig.adapter.simulated.SimulatedHand;
import linehold.rig.adapter.simulated.SimulatedPerson;
import linehold.rig.adapter.simulated.SimulatedRig;
import linehold.rig.loop.ControlLoop;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.SteppedClock;
import linehold.rig.loop.TickRing;
import linehold.rig.port.Watchdog;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.run.Moment;

/** The simulated bench in virtual time, through the real loop: one procedure from its first tick to after its end. */
final class VirtualBench {
    /** Something a test does or looks at, at every tick. */
    interface Onlooker {
        void tick(ProcedureEngine engine, Moment truth);
    }

    static final Build DEMONSTRATION = BuildFile.loadNamed("demonstration");
    /** After the end the rig goes on: nothing may change then. */
    private static final int TICKS_AFTER = 400;

    private static final long MOST_TICKS = 1_000_000;

    final ProcedureEngine engine;
    private final Build car;
    private final double oilC;
    private final List<Fault> faults;
    private final List<Onlooker> onlookers = new ArrayList<>();
    private boolean answers = true;
    private long ticks;
    private int after;

    VirtualBench(Build build, Build car, double oilC, List<Fault> faults) {
        this.car = car;
        this.oilC = oilC;
        this.faults = faults;
        engine = new ProcedureEngine(new Bench(build, 20));
    }

    static VirtualBench healthy(double oilC) {
        return new VirtualBench(DEMONSTRATION, DEMONSTRATION, oilC, List.of());
    }

    static VirtualBench with(FaultKind kind, double startS) {
        return new VirtualBench(DEMONSTRATION, DEMONSTRATION, 60, List.of(Fault.usual(kind, startS)));
    }

    static VirtualBench with(Fault fault, double oilC) {
        return new VirtualBench(DEMONSTRATION, DEMONSTRATION, oilC, List.of(fault));
    }

    VirtualBench onlooker(Onlooker onlooker) {
        onlookers.add(onlooker);
        return this;
    }

    VirtualBench silentPerson() {
        answers = false;
        return this;
    }

    /** Runs it, and holds that the pump is safe and drive withheld at and after the end, however it ends. */
    Result run(Procedure procedure) {
        SimulatedHand hand = new SimulatedHand(engine::shaft, 0.005);
        SimulatedPerson person = new SimulatedPerson(engine, hand, answers);
        boolean normallyClosed = car.calibration().is(Key.NORMALLY_CLOSED_CONTACT);
        engine.start(procedure);
        try (SimulatedRig rig = new SimulatedRig(car, hand, oilC, 1, faults)) {
            person.watch(rig);
            ControlLoop[] loop = new ControlLoop[1];
            loop[0] = new ControlLoop(
                    rig,
                    (nowNs, in, out) -> {
                        person.step(nowNs, in, out);
                        onlookers.forEach(onlooker -> onlooker.tick(engine, rig.moment()));
                        if (engine.view().result() != null) {
                            assertThat(out.mainRelayCoil)
                                    .as("main relay feeds the pump")
                                    .isEqualTo(!normallyClosed);
                            assertThat(out.standbyRelayCoil).isFalse();
                            assertThat(out.permission).isEqualTo(DrivePermission.WITHHELD);
                            after++;
                        }
                        ticks++;
                        if (after > TICKS_AFTER || ticks > MOST_TICKS) {
                            loop[0].stop();
                        }
                    },
                    new SteppedClock(),
                    Watchdog.NONE,
                    normallyClosed,
                    car.calibration().ns(Key.CONTROL_PERIOD),
                    new RigFaults(),
                    new TickRing(64));
            loop[0].run();
        }
        assertThat(engine.view().result()).as("%s ends", procedure).isNotNull();
        return engine.view().result();
    }
}
