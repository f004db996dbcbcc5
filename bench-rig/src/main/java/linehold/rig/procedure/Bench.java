package linehold.rig.procedure;

import linehold.controller.calibration.Calibration;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.Display.Scale;
import linehold.simulator.build.Quantity;
import linehold.simulator.run.StandingCar;

/** The build that procedures are held against: its limits, what it promises, and how its numbers are shown. */
public final class Bench {
    private static final double COLDEST_C = -30;
    private static final double STEP_K = 10;
    private static final int POINTS = 18;

    private final Build build;
    private final int cycles;
    private final Display display;
    private final double[] settledPa = new double[POINTS];
    private final double[] halfTimeS = new double[POINTS];
    private final double[] tenthTimeS = new double[POINTS];

    /**
     * Computes what the build promises, here and not in a tick.
     *
     * @param cycles of endurance cycling
     */
    public Bench(Build build, int cycles) {
        this.build = build;
        this.cycles = cycles;
        display = new Display(build.units());
        for (int i = 0; i < POINTS; i++) {
            StandingCar car = StandingCar.of(build, COLDEST_C + i * STEP_K);
            settledPa[i] = car.settledPa();
            halfTimeS[i] = car.halfTimeS();
            tenthTimeS[i] = car.tenthTimeS();
        }
    }

    public Build build() {
        return build;
    }

    Calibration calibration() {
        return build.calibration();
    }

    /** What holds in every step. */
    public Limits limits() {
        return Limits.of(this);
    }

    int cycles() {
        return cycles;
    }

    public Display display() {
        return display;
    }

    /** Pressure at which the standing line settles in D with the electric pump alone, Pa. */
    double settledPa(double oilC) {
        return between(settledPa, oilC);
    }

    /** Time until that pressure has halved after the pump is switched off, s. */
    double halfTimeS(double oilC) {
        return between(halfTimeS, oilC);
    }

    /** Time until a tenth of it is left, s. */
    double tenthTimeS(double oilC) {
        return between(tenthTimeS, oilC);
    }

    private static double between(double[] values, double oilC) {
        double at = Math.max(0, Math.min(POINTS - 1.0, (oilC - COLDEST_C) / STEP_K));
        int low = (int) Math.min(POINTS - 2.0, Math.floor(at));
        return values[low] + (values[low + 1] - values[low]) * (at - low);
    }

    Scale volts() {
        return new Scale(Quantity.VOLTAGE.unit("V").orElseThrow(), 2);
    }

    Scale amps() {
        return new Scale(Quantity.CURRENT.unit("A").orElseThrow(), 1);
    }

    Scale percent() {
        return new Scale(Quantity.RATIO.unit("%").orElseThrow(), 1);
    }

    /** @param decimals 0 for whole numbers */
    Scale plain(int decimals) {
        return new Scale(Quantity.RATIO.unit("").orElseThrow(), decimals);
    }
}
