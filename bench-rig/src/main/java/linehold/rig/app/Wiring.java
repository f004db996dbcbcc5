package linehold.rig.app;

import java.util.List;
import linehold.controller.Controller;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.rig.adapter.pi4j.PiCar;
import linehold.rig.adapter.simulated.SimulatedRig;
import linehold.rig.adapter.system.SystemClock;
import linehold.rig.board.Board;
import linehold.rig.board.BoardChecks;
import linehold.rig.board.BoardFile;
import linehold.rig.loop.ControlLoop;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRing;
import linehold.rig.port.Car;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;
import linehold.simulator.drive.Drives;

/** The only place that chooses adapters: a rig, put together and not yet running. */
final class Wiring implements AutoCloseable {
    /** Rows that a reader may lag behind before it loses some: 20 s at the usual 5 ms. */
    private static final int RING_ROWS = 4096;

    private final Car car;
    private final Watchdogs watchdogs;
    private final ControlLoop loop;
    private final TickRing ring;

    private Wiring(Car car, Watchdogs watchdogs, ControlLoop loop, TickRing ring) {
        this.car = car;
        this.watchdogs = watchdogs;
        this.loop = loop;
        this.ring = ring;
    }

    /** @throws InputException where the options, the drive or the board file cannot be used; no line has then moved */
    static Wiring open(Build build, RigOptions options) {
        Calibration calibration = build.calibration();
        Controller controller = new Controller(calibration);
        RigFaults faults = new RigFaults();
        TickRing ring = new TickRing(RING_ROWS);
        Car car = car(build, options);
        Watchdogs watchdogs;
        try {
            watchdogs = Watchdogs.open(options, car);
        } catch (InputException e) {
            car.close();
            throw e;
        }
        ControlLoop loop = new ControlLoop(
                car,
                controller::step,
                new SystemClock(),
                watchdogs,
                calibration.is(Key.NORMALLY_CLOSED_CONTACT),
                calibration.ns(Key.CONTROL_PERIOD),
                faults,
                ring);
        return new Wiring(car, watchdogs, loop, ring);
    }

    private static Car car(Build build, RigOptions options) {
        return switch (options.io) {
            case SIMULATED ->
                new SimulatedRig(
                        build, Drives.resolve(options.drive, build), oilC(options.oil), options.seed, List.of());
            case PI -> board(build.calibration(), options);
        };
    }

    private static Car board(Calibration calibration, RigOptions options) {
        if (options.board == null) {
            throw new InputException("--io pi: found no --board, expected a board file beside it");
        }
        Board board = BoardFile.load(options.board);
        BoardChecks.check(options.board.toString(), board, calibration);
        return PiCar.open(board, calibration.is(Key.NORMALLY_CLOSED_CONTACT));
    }

    private static double oilC(String typed) {
        return Quantities.parse(typed, Quantity.TEMPERATURE)
                .orElseThrow(() ->
                        new InputException("--oil: found '" + typed + "', expected a temperature such as '60 °C'"));
    }

    ControlLoop loop() {
        return loop;
    }

    TickRing ring() {
        return ring;
    }

    /** The loop has ended as it should, with its outputs at their safe levels. */
    void endWatchdogs() {
        watchdogs.endInOrder();
    }

    @Override
    public void close() {
        car.close();
    }
}
