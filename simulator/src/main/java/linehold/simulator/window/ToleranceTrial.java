package linehold.simulator.window;

import java.util.Comparator;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import linehold.simulator.build.Build;
import linehold.simulator.build.Spread;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.RowDrive;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.Reserve;
import linehold.simulator.run.Parallel;

/** One car within the spreads of a build on a demonstration drive, closed loop with the controller of the nominal car. */
final class ToleranceTrial {
    private final Build build;
    private final UnaryOperator<Build> window;
    private final long seed;
    private final List<RowDrive> drives;

    /**
     * @param window sets the switch-over window of a car
     * @param seed of the sensors' noise
     */
    ToleranceTrial(Build build, UnaryOperator<Build> window, long seed) {
        this.build = build;
        this.window = window;
        this.seed = seed;
        drives = BuiltInDrives.all(build);
    }

    /** With the recommended window alone, as it was found: what the aids buy is reserve. */
    static ToleranceTrial of(Window found, long seed) {
        Window.Pair pair = found.pair();
        return new ToleranceTrial(
                found.build(),
                car -> Tuning.of(car, pair.onRadPerS(), pair.offRadPerS(), Setting.ALONE.aids(car), found.ahead()),
                seed);
    }

    List<Spread> spreads() {
        return build.spreads().all();
    }

    double[] nominal() {
        return spreads().stream().mapToDouble(Spread::nominal).toArray();
    }

    /** The values at a point of the unit cube. */
    double[] at(double[] point) {
        double[] si = new double[point.length];
        for (int i = 0; i < si.length; i++) {
            si[i] = spreads().get(i).at(point[i]);
        }
        return si;
    }

    /** A drive, an oil temperature, and what they leave the nominal car. */
    record Weakest(String drive, double oilC, Reserve reserve) {}

    /** The drive that leaves the nominal car least, the first of equal ones; one that is lost comes before any that holds. */
    Weakest weakest(double oilC, Predicate<RowDrive> among) {
        List<Callable<Weakest>> tasks = drives.stream()
                .filter(among)
                .<Callable<Weakest>>map(drive -> () -> nominal(drive.name(), oilC))
                .toList();
        return Parallel.all(tasks, () -> {}).stream()
                .min(Comparator.comparing((Weakest one) -> one.reserve().held())
                        .thenComparingDouble(one -> one.reserve().least()))
                .orElseThrow();
    }

    private Weakest nominal(String drive, double oilC) {
        return new Weakest(drive, oilC, reserve(drive, oilC, nominal(), 0));
    }

    /**
     * @param si a value for each spread
     * @param noise cars of the same number have the same noise
     */
    Reserve reserve(String drive, double oilC, double[] si, long noise) {
        Build car = window.apply(build.car(si));
        return new Prover(car, seed + noise).reserve(drive(drive, car), oilC);
    }

    /** The same manoeuvre with this car: another tyre turns the shaft faster, another mass asks for another torque. */
    private RowDrive drive(String name, Build car) {
        boolean same = car.car().equals(build.car()) && car.gears().equals(build.gears());
        return (same ? drives : BuiltInDrives.all(car))
                .stream().filter(drive -> drive.name().equals(name)).findFirst().orElseThrow();
    }
}
