package linehold.rig.app;

import java.util.List;
import linehold.controller.Controller;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.rig.adapter.mqtt.MqttSettings;
import linehold.rig.adapter.mqtt.MqttTelemetry;
import linehold.rig.adapter.mqtt.RigIdentity;
import linehold.rig.adapter.pi4j.PiCar;
import linehold.rig.adapter.simulated.SimulatedClock;
import linehold.rig.adapter.simulated.SimulatedHand;
import linehold.rig.adapter.simulated.SimulatedPerson;
import linehold.rig.adapter.simulated.SimulatedRig;
import linehold.rig.adapter.store.Recorder;
import linehold.rig.adapter.system.RealTime;
import linehold.rig.adapter.system.SystemClock;
import linehold.rig.board.Board;
import linehold.rig.board.BoardChecks;
import linehold.rig.board.BoardFile;
import linehold.rig.loop.ControlLoop;
import linehold.rig.loop.Decision;
import linehold.rig.loop.KeptCodes;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRing;
import linehold.rig.port.Car;
import linehold.rig.port.RigClock;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;
import linehold.simulator.drive.Drives;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.LiveFaults;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The only place that chooses adapters: a rig, put together and not yet running. */
final class Wiring implements AutoCloseable {
    /** Rows that a reader may lag behind before it loses some: 20 s at the usual 5 ms. */
    private static final int RING_ROWS = 4096;
    /** Above the service's other threads, below the kernel's interrupt threads (50). */
    private static final int LOOP_PRIORITY = 30;
    /** Edges and conversions: what the loop reads must be fresh, and never holds it up. */
    private static final int INPUT_PRIORITY = 25;

    private static final Logger LOG = LoggerFactory.getLogger(Wiring.class);

    private final Build build;
    private final Car car;
    private final Watchdogs watchdogs;
    private final ControlLoop loop;
    private final TickRing ring;
    private final RigFaults faults;
    private final RigClock clock;
    /** Null without a broker. */
    private MqttTelemetry telemetry;
    /** Null where nothing is kept. */
    private RigStore store;

    private Wiring(
            Build build,
            Car car,
            Watchdogs watchdogs,
            ControlLoop loop,
            TickRing ring,
            RigFaults faults,
            RigClock clock) {
        this.build = build;
        this.car = car;
        this.watchdogs = watchdogs;
        this.loop = loop;
        this.ring = ring;
        this.faults = faults;
        this.clock = clock;
    }

    /** @throws InputException where the options, the drive or the board file cannot be used; no line has then moved */
    static Wiring open(Build build, RigOptions options, String drive, RecordingOptions recording) {
        recording.limits();
        if (!recording.off) {
            Recorder.prepare();
        }
        keepInMemory(options);
        Car car = switch (options.io) {
            case SIMULATED ->
                new SimulatedRig(build, Drives.resolve(drive, build), oilC(options.oil), options.seed, List.of());
            case PI -> board(build.calibration(), options);
        };
        Controller controller = new Controller(build.calibration());
        KeptCodes codes = new KeptCodes(controller);
        RigClock clock = new SystemClock();
        Wiring wiring = assemble(build, options, car, codes, clock);
        if (!recording.off) {
            String rig = options.io == RigOptions.Io.SIMULATED
                    ? "simulated " + drive
                    : "board " + options.board.getFileName();
            wiring.store =
                    RigStore.open(recording, build, rig, controller, codes, clock.nowNs(), wiring.ring, wiring.faults);
        }
        return wiring;
    }

    /**
     * A bench with a real board.
     *
     * @param decision steps the procedure engine
     * @throws InputException as {@link #open}
     */
    static Wiring bench(Build build, RigOptions options, Decision decision) {
        keepInMemory(options);
        Car car = board(build.calibration(), options);
        return assemble(build, options, car, decision, new SystemClock());
    }

    /**
     * A bench on paper.
     *
     * @param person stands at it; where it answers for itself, time passes as fast as it can
     * @param decision steps the person
     */
    static Wiring simulatedBench(
            Build build,
            RigOptions options,
            SimulatedHand hand,
            SimulatedPerson person,
            Decision decision,
            List<Fault> faults) {
        SimulatedRig car = new SimulatedRig(build, hand, oilC(options.oil), options.seed, faults);
        person.watch(car);
        RigClock clock = person.answers() ? new SimulatedClock() : new SystemClock();
        return assemble(build, options, car, decision, clock);
    }

    private static Wiring assemble(Build build, RigOptions options, Car car, Decision decision, RigClock clock) {
        Calibration calibration = build.calibration();
        RigFaults faults = new RigFaults();
        TickRing ring = new TickRing(RING_ROWS);
        Watchdogs watchdogs;
        try {
            watchdogs = Watchdogs.open(options, car);
        } catch (InputException e) {
            car.close();
            throw e;
        }
        ControlLoop loop = new ControlLoop(
                car,
                decision,
                clock,
                watchdogs,
                calibration.is(Key.NORMALLY_CLOSED_CONTACT),
                calibration.ns(Key.CONTROL_PERIOD),
                faults,
                ring);
        return new Wiring(build, car, watchdogs, loop, ring, faults, clock);
    }

    /**
     * Whether a bench can be put together from this, as far as that is known before a line is opened.
     *
     * @throws InputException where it cannot
     */
    static void check(Build build, RigOptions options) {
        switch (options.io) {
            case SIMULATED -> oilC(options.oil);
            case PI -> checkedBoard(build.calibration(), options);
        }
    }

    /** Asked for a simulated car too, where it is a courtesy: an ordinary user is not allowed it, and need not be told. */
    private static void keepInMemory(RigOptions options) {
        if (!RealTime.lockMemory() && options.io == RigOptions.Io.PI) {
            LOG.warn("memory is not locked; a page that is swapped out can delay a tick (docs/install.md)");
        }
    }

    private static Board checkedBoard(Calibration calibration, RigOptions options) {
        if (options.board == null) {
            throw new InputException("--io pi: found no --board, expected a board file beside it");
        }
        Board board = BoardFile.load(options.board);
        BoardChecks.check(options.board.toString(), board, calibration);
        return board;
    }

    private static Car board(Calibration calibration, RigOptions options) {
        Board board = checkedBoard(calibration, options);
        return PiCar.open(board, calibration.is(Key.NORMALLY_CLOSED_CONTACT), () -> RealTime.urgent(INPUT_PRIORITY));
    }

    private static double oilC(String typed) {
        return Quantities.parse(typed, Quantity.TEMPERATURE)
                .orElseThrow(() ->
                        new InputException("--oil: found '" + typed + "', expected a temperature such as '60 °C'"));
    }

    /** Tells a broker what happens from the next tick on; called once, before the loop runs. */
    void publish(MqttSettings settings, RigIdentity identity) {
        telemetry = MqttTelemetry.open(settings, ring.follow(), faults, identity, clock);
        telemetry.start();
    }

    /** What the loop's thread runs in real time: before every ordinary thread, where that is allowed; on a board it matters. */
    void run() {
        WarmUp.run(build);
        if (!RealTime.urgent(LOOP_PRIORITY) && car instanceof PiCar) {
            LOG.warn("no real-time priority; other programs can delay a tick (docs/install.md)");
        }
        loop.run();
    }

    ControlLoop loop() {
        return loop;
    }

    TickRing ring() {
        return ring;
    }

    /** Faults that can be put into the car; null where it is a real one. */
    LiveFaults liveFaults() {
        return car instanceof SimulatedRig ? ((SimulatedRig) car).liveFaults() : null;
    }

    /** The loop has ended as it should, with its outputs at their safe levels. */
    void endWatchdogs() {
        watchdogs.endInOrder();
    }

    /** The lines first, then the medium: neither waits for a network. */
    @Override
    public void close() {
        car.close();
        if (store != null) {
            store.close();
        }
        if (telemetry != null) {
            telemetry.close();
        }
    }
}
