package linehold.simulator.window;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.Element;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.RowDrive;
import linehold.simulator.prove.Prover;
import linehold.simulator.run.Parallel;
import linehold.simulator.run.RunTotals;
import linehold.simulator.window.Window.Bound;
import linehold.simulator.window.Window.Pair;
import linehold.simulator.window.Window.StopLimit;

/** Puts the window together from its bounds. */
final class Recommendation {
    private static final double RPM = Math.PI / 30;
    /** Recommended speeds are multiples of this, rad/s. */
    private static final double ROUND_RAD_PER_S = 25 * RPM;
    /** Above its highest bound the switch-on speed has this share of it, or the least, in reserve (assumed). */
    private static final double RESERVE = 0.1;

    private static final double LEAST_RESERVE_RAD_PER_S = 50 * RPM;
    /** Half the swing of the shaft speed around its mean while creeping: 2 % (assumed). */
    private static final double RIPPLE = 0.02;

    private static final double[] CREEPING_GAPS_RPM = {50, 75, 100, 150, 200, 300};
    private static final List<String> CREEPING_DRIVES = List.of("stop-and-go", "hill-hold", "parking");
    /** A wider window must save more than this share of the relay's operations to be worth its running time (assumed). */
    private static final double WORTH_SAVING = 0.05;

    private final Build build;
    private final Display display;
    private final LookAhead ahead;
    private final List<CarryPoint> carry;
    private final List<LeadTime> leads;
    private final List<StopLimit> stops;

    Recommendation(Build build, LookAhead ahead, List<CarryPoint> carry, List<LeadTime> leads, List<StopLimit> stops) {
        this.build = build;
        this.ahead = ahead;
        this.carry = carry;
        this.leads = leads;
        this.stops = stops;
        display = new Display(build.units());
    }

    /** The stop that asks for the highest switch-on speed. */
    static StopLimit hardest(List<StopLimit> stops) {
        return stops.stream()
                .max(Comparator.comparingDouble(
                        stop -> stop.found(Setting.ALONE).onRadPerS()))
                .orElseThrow();
    }

    double onRadPerS() {
        return withReserve(onBounds().get(0).radPerS());
    }

    /** The switch-on speed that is recommended above a bound, rad/s. */
    static double withReserve(double boundRadPerS) {
        double on = roundUp(boundRadPerS + Math.max(RESERVE * boundRadPerS, LEAST_RESERVE_RAD_PER_S));
        return Math.min(on, Key.SWITCH_ON_SPEED.most());
    }

    /** The least switch-off speed above a switch-on speed: pickup and ripple, rad/s. */
    static double leastOff(Build build, double onRadPerS) {
        return roundUp(Math.max(Tuning.leastOffRadPerS(build.calibration(), onRadPerS), rippled(onRadPerS)));
    }

    private static double rippled(double onRadPerS) {
        return onRadPerS * (1 + 2 * RIPPLE);
    }

    Pair pair(double marginPa, Runnable done) {
        double on = onRadPerS();
        List<Bound> offBounds = offBounds(on, done);
        double off = Math.min(roundUp(offBounds.get(0).radPerS()), Key.SWITCH_OFF_SPEED.most());
        double lost = hardest(stops).found(Setting.ALONE).onRadPerS() - SpeedSearch.STEP_RAD_PER_S;
        return new Pair(on, off, on - lost, marginPa, onBounds(), offBounds);
    }

    private static double roundUp(double radPerS) {
        return Math.ceil(radPerS / ROUND_RAD_PER_S - 1e-6) * ROUND_RAD_PER_S;
    }

    // ---- switch-on ----------------------------------------------------------------------------------------------

    private List<Bound> onBounds() {
        List<Bound> bounds = new ArrayList<>();
        bounds.add(stopBound());
        CarryPoint hold = worst(Comparator.comparingDouble(CarryPoint::holdRadPerS));
        bounds.add(new Bound(
                "hold pressure",
                hold.holdRadPerS(),
                "Below " + display.speed(hold.holdRadPerS()) + " the internal pump alone does not keep "
                        + display.pressure(build.limits().holdPressurePa()) + " with oil at "
                        + display.temperature(hold.oilC()) + "."));
        CarryPoint forward = worst(Comparator.comparingDouble(CarryPoint::forwardRadPerS));
        bounds.add(new Bound(
                "forward torque",
                forward.forwardRadPerS(),
                torque(TorquePressure.forwardPa(build), forward.forwardRadPerS(), forward.oilC(), elementName())));
        CarryPoint reverse = worst(Comparator.comparingDouble(CarryPoint::reverseRadPerS));
        bounds.add(new Bound(
                "reverse torque",
                reverse.reverseRadPerS(),
                torque(
                        TorquePressure.reversePa(build),
                        reverse.reverseRadPerS(),
                        reverse.oilC(),
                        "the reverse clutch")));
        bounds.sort(Comparator.comparingDouble(Bound::radPerS).reversed());
        return List.copyOf(bounds);
    }

    private Bound stopBound() {
        StopLimit stop = hardest(stops);
        double on = stop.found(Setting.ALONE).onRadPerS();
        LeadTime lead = leads.stream()
                .filter(one -> one.oilC() == stop.oilC() && one.busVolts() != Window.SAGGED_VOLTS)
                .findFirst()
                .orElseThrow();
        double pickupS = 1.5 * 2 * Math.PI / build.sensors().pulsesPerRev() / on;
        return new Bound(
                "hardest stop",
                on,
                "In a stop at " + display.acceleration(stop.rateRadPerS2()) + " with oil at "
                        + display.temperature(stop.oilC()) + " a pump switched on below " + display.speed(on)
                        + " comes too late: the pickup shows the speed up to " + display.shortTime(pickupS)
                        + " late, relay and spin-up take another "
                        + display.shortTime(lead.periodS() + lead.afterCommandS())
                        + ", and the oil stored in the line does not last that long.");
    }

    private String elementName() {
        return TorquePressure.forwardElement(build) == Element.LOW_BAND ? "the low band" : "the high clutch";
    }

    private String torque(double pressurePa, double radPerS, double oilC, String element) {
        return "Below " + display.speed(radPerS) + " the internal pump alone does not make the "
                + display.pressure(pressurePa) + " that " + element
                + " needs for the motor's largest torque, with oil at " + display.temperature(oilC) + ".";
    }

    private CarryPoint worst(Comparator<CarryPoint> by) {
        return carry.stream().max(by).orElseThrow();
    }

    // ---- switch-off ---------------------------------------------------------------------------------------------

    static int creepingSteps() {
        return CREEPING_GAPS_RPM.length;
    }

    private List<Bound> offBounds(double on, Runnable done) {
        List<Bound> bounds = new ArrayList<>();
        double least = Tuning.leastOffRadPerS(build.calibration(), on);
        bounds.add(new Bound(
                "pickup resolution",
                least,
                "The controller refuses less (LH-SW-3): the pickup's resolution there, and at least "
                        + display.speed(50 * RPM) + "."));
        bounds.add(new Bound(
                "speed ripple",
                rippled(on),
                String.format(
                        Locale.ROOT,
                        "A creeping shaft swings by ±%.0f %% around its mean (assumed); both speeds must not lie within"
                                + " one swing.",
                        RIPPLE * 100)));
        bounds.add(creeping(on, least, done));
        CarryPoint handOver = worst(Comparator.comparingDouble(CarryPoint::handOverRadPerS));
        bounds.add(new Bound(
                "hand-over pressure",
                handOver.handOverRadPerS(),
                "The internal pump alone makes the hand-over pressure of "
                        + display.pressure(build.calibration().get(Key.HAND_OVER_PRESSURE)) + " from "
                        + display.speed(handOver.handOverRadPerS()) + " on, with oil at "
                        + display.temperature(handOver.oilC()) + "."));
        bounds.sort(Comparator.comparingDouble(Bound::radPerS).reversed());
        return List.copyOf(bounds);
    }

    /** The narrowest gap that a wider one does not beat by much in relay operations on the creeping drives. */
    private Bound creeping(double on, double least, Runnable done) {
        double hottest = ahead.oilC()[ahead.oilC().length - 1];
        List<RowDrive> drives = BuiltInDrives.all(build).stream()
                .filter(drive -> CREEPING_DRIVES.contains(drive.name()))
                .toList();
        double[] offs = new double[CREEPING_GAPS_RPM.length];
        List<Callable<Double>> tasks = new ArrayList<>();
        for (int i = 0; i < offs.length; i++) {
            offs[i] = Math.max(least, on + CREEPING_GAPS_RPM[i] * RPM);
            Build tuned = Tuning.of(build, on, offs[i], Setting.ALONE.aids(build), ahead);
            tasks.add(() -> operationsPerHour(new Prover(tuned, 1), drives, hottest));
        }
        List<Double> operations = Parallel.all(tasks, done);
        double fewest = operations.stream().mapToDouble(x -> x).min().orElseThrow();
        int chosen = 0;
        while (operations.get(chosen) > fewest * (1 + WORTH_SAVING)) {
            chosen++;
        }
        return new Bound(
                "creeping",
                offs[chosen],
                String.format(
                        Locale.ROOT,
                        "In a traffic jam, on a hill and while parking the relay moves %.0f times an hour with this gap,"
                                + " %.0f times with the narrowest and %.0f times with the widest tried.",
                        operations.get(chosen),
                        operations.get(0),
                        operations.get(offs.length - 1)));
    }

    private static double operationsPerHour(Prover prover, List<RowDrive> drives, double oilC) {
        double moves = 0;
        double seconds = 0;
        for (RowDrive drive : drives) {
            RunTotals totals = prover.run(drive, oilC, moment -> true);
            moves += totals.relayMoves();
            seconds += totals.durationS();
        }
        return moves * 3600 / seconds;
    }
}
