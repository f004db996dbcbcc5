package linehold.simulator.run;

import java.util.List;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.drive.Drive;
import linehold.simulator.fault.Fault;

/**
 * One drive through the car and the real controller, tick by tick: drive → circuit → sensors → controller → relay →
 * circuit.
 */
public final class ClosedLoop {
    private final Build build;
    private final double oilC;
    private final long seed;
    private final List<Fault> faults;
    private final long periodNs;
    private double patienceS;

    /**
     * @param oilC oil temperature where the drive does not say, °C
     * @param seed of the sensors' noise
     */
    public ClosedLoop(Build build, double oilC, long seed) {
        this(build, oilC, seed, List.of());
    }

    /** The same with faults, which begin and end at a tick. */
    public ClosedLoop(Build build, double oilC, long seed, List<Fault> faults) {
        this.build = build;
        this.oilC = oilC;
        this.seed = seed;
        this.faults = faults;
        periodNs = Math.round(build.calibration().get(Key.CONTROL_PERIOD) * 1e9);
    }

    /** The driver waits for drive, see {@link SimulatedCar#withPatience}. */
    public ClosedLoop withPatience(double seconds) {
        patienceS = seconds;
        return this;
    }

    /** Drives the whole drive, or until the listener has seen enough. */
    public RunTotals run(Drive drive, TickListener listener) {
        ControlUnit unit = new ControlUnit(build.calibration());
        try (SimulatedCar car =
                new SimulatedCar(build, drive, oilC, seed, faults, unit.faults()).withPatience(patienceS)) {
            Moment moment = car.moment();
            for (long nowNs = 0; car.see(nowNs); nowNs += periodNs) {
                unit.step(nowNs, moment.inputs, moment.outputs);
                car.obey();
                if (!listener.tick(moment)) {
                    break;
                }
            }
            return car.totals();
        }
    }
}
