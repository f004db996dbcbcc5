package linehold.simulator.window;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import linehold.controller.Range;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.Element;
import linehold.simulator.build.Gear;
import linehold.simulator.build.InstallationKey;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.Drive;
import linehold.simulator.drive.RowDrive;
import linehold.simulator.drivetrain.RoadLoad;
import linehold.simulator.run.Parallel;
import linehold.simulator.window.Window.Pair;
import linehold.simulator.window.Window.Price;
import linehold.simulator.window.Window.Proof;
import linehold.simulator.window.Window.Remedy;
import linehold.simulator.window.Window.RulePoint;
import linehold.simulator.window.Window.Standstill;
import linehold.simulator.window.Window.StopLimit;
import linehold.simulator.window.Window.WindowMap;

/** Finds the switch-over window of a build. The result depends on its arguments alone, not on the number of cores. */
public final class WindowFinder {
    private static final int LOSING_STEPS = 10;

    private final Build build;
    private final List<Double> oilC;
    private final List<? extends Drive> drives;
    private final String drivesName;
    private final Display display;
    private final Watch watch;

    /**
     * Proves and prices the window on the demonstration drives.
     *
     * @param oilC oil temperatures, °C, at least one; order and repetition do not matter
     * @param watch told how far the work has got
     */
    public WindowFinder(Build build, List<Double> oilC, Watch watch) {
        this(build, oilC, List.of(), watch);
    }

    /** @param drives what to prove and price the window on; empty for the demonstration drives */
    public WindowFinder(Build build, List<Double> oilC, List<? extends Drive> drives, Watch watch) {
        this.build = build;
        this.drives = drives.isEmpty() ? BuiltInDrives.all(build) : drives;
        drivesName = drives.isEmpty() ? Window.DEMONSTRATION_DRIVES : Window.GIVEN_DRIVES;
        this.oilC = oilC.stream().distinct().sorted().toList();
        this.watch = watch;
        display = new Display(build.units());
    }

    public Window find() {
        List<CarryPoint> carry = all("carry speeds", this::carry);
        List<Standstill> standstill = all("standstill", this::standstill);
        LookAhead ahead = lookAhead(carry);
        StopSearch search = new StopSearch(build, oilC, ahead);
        List<StopLimit> stops = search.limits(watch.begin("stops", search.limitSteps()));
        List<RulePoint> rule = search.rule(watch.begin("rule of thumb", oilC.size()));

        List<String> noWindow = new ArrayList<>(Obstacles.of(build, carry, standstill, stops));
        Pair pair = null;
        RowDrive losingStop = null;
        List<Price> prices = new ArrayList<>();
        List<Proof> proofs = new ArrayList<>();
        if (noWindow.isEmpty()) {
            List<LeadTime> leads = leads(Window.RULE_RAD_PER_S);
            Recommendation recommendation = new Recommendation(build, ahead, carry, leads, stops);
            double marginPa = marginPa(recommendation.onRadPerS(), ahead);
            pair = recommendation.pair(marginPa, watch.begin("creeping", Recommendation.creepingSteps()));
            Losing losing = losing(stops, pair, ahead);
            losingStop = losing.stop;
            pair = pair.withMargin(losing.marginRadPerS);
            for (Setting setting : List.of(Setting.ALONE, Setting.FITTED)) {
                Runnable done = watch.begin("drives", drives.size() * oilC.size());
                Costs costs = Costs.of(build, drives, oilC, setting, pair, ahead, done);
                prices.addAll(costs.prices());
                proofs.add(costs.proof());
            }
            noWindow.addAll(Obstacles.of(display, marginPa, drivesName, proofs));
        }
        double onRadPerS = pair == null ? Double.NaN : pair.onRadPerS();
        List<RollBack> rollBacks = all("rolling back", temperature -> rollBack(temperature, onRadPerS, ahead));
        if (pair != null) {
            noWindow.addAll(Obstacles.of(build, rollBacks));
        }
        List<Double> speeds = StopSearch.mapSpeeds(onRadPerS);
        List<WindowMap> maps = search.maps(speeds, watch.begin("maps", speeds.size() * oilC.size()));
        List<Remedy> remedies = noWindow.isEmpty() ? List.of() : new Remedies(build, oilC).ranked(watch);
        List<LeadTime> leads = leads(pair == null ? Window.RULE_RAD_PER_S : pair.onRadPerS());
        return new Window(
                build,
                oilC,
                StopSearch.rates(),
                carry,
                standstill,
                rollBacks,
                leads,
                stops,
                rule,
                maps,
                ahead,
                pair,
                List.copyOf(noWindow),
                List.copyOf(prices),
                List.copyOf(proofs),
                remedies,
                losingStop,
                drivesName,
                null);
    }

    /** A question asked at one oil temperature. */
    private interface AtOil<T> {
        T answer(double oilC);
    }

    private <T> List<T> all(String stage, AtOil<T> question) {
        List<Callable<T>> tasks = new ArrayList<>();
        for (double temperature : oilC) {
            tasks.add(() -> question.answer(temperature));
        }
        return List.copyOf(Parallel.all(tasks, watch.begin(stage, tasks.size())));
    }

    private CarryPoint carry(double temperature) {
        SteadyState circuit = new SteadyState(build, temperature);
        double holdPa = build.limits().holdPressurePa();
        Element forward = TorquePressure.forwardElement(build);
        return new CarryPoint(
                temperature,
                circuit.carryRadPerS(Element.LOW_BAND, Range.DRIVE, holdPa),
                circuit.carryRadPerS(forward, Range.DRIVE, TorquePressure.forwardPa(build)),
                circuit.carryRadPerS(Element.REVERSE_CLUTCH, Range.REVERSE, TorquePressure.reversePa(build)),
                StopTrial.handOverRadPerS(build, temperature));
    }

    private Standstill standstill(double temperature) {
        SteadyState circuit = new SteadyState(build, temperature);
        return new Standstill(
                temperature,
                circuit.standstillPa(build.supply().openVolts()),
                circuit.standstillPa(Window.SAGGED_VOLTS));
    }

    private RollBack rollBack(double temperature, double onRadPerS, LookAhead ahead) {
        double mostRadPerS = new SteadyState(build, temperature)
                .rollBackRadPerS(build.limits().holdPressurePa());
        if (Double.isNaN(mostRadPerS) || Double.isNaN(onRadPerS)) {
            return new RollBack(temperature, mostRadPerS, Double.NaN);
        }
        // An unbraked car on a slope: dv/dt = g·sin γ, rolling resistance left out.
        double slope = StrictMath.atan(build.installation().si(InstallationKey.START_GRADE));
        double rate = RoadLoad.GRAVITY_M_PER_S2
                * StrictMath.sin(slope)
                / build.car().tyreRadiusM()
                * build.gears().totalRatio(Gear.FIRST);
        StopTrial trial = new StopTrial(build, Setting.ALONE, temperature, ahead);
        return new RollBack(
                temperature, mostRadPerS, trial.rollingBackPa(rate, onRadPerS, RollBack.TRIED * mostRadPerS));
    }

    /** Full bus, then sagged bus, at each oil temperature. */
    private List<LeadTime> leads(double onRadPerS) {
        LeadTimes times = new LeadTimes(build);
        return all(
                        "lead times",
                        temperature -> List.of(
                                times.at(temperature, build.supply().openVolts(), onRadPerS),
                                times.at(temperature, Window.SAGGED_VOLTS, onRadPerS)))
                .stream()
                .flatMap(List::stream)
                .toList();
    }

    private LookAhead lookAhead(List<CarryPoint> carry) {
        LeadTimes times = new LeadTimes(build);
        double volts = build.supply().openVolts();
        return new LookAhead(
                oilC.stream().mapToDouble(x -> x).toArray(),
                carry.stream().mapToDouble(CarryPoint::holdRadPerS).toArray(),
                oilC.stream()
                        .mapToDouble(temperature -> times.at(temperature, volts, Window.RULE_RAD_PER_S)
                                .afterCommandS())
                        .toArray());
    }

    /** What the worst of all stops keeps above the hold pressure with the recommended switch-on speed, Pa. */
    private double marginPa(double onRadPerS, LookAhead ahead) {
        List<Double> lowest = all("margin", temperature -> {
            StopTrial trial = new StopTrial(build, Setting.ALONE, temperature, ahead);
            return StopSearch.rates().stream()
                    .mapToDouble(rate -> trial.lowestPa(rate, onRadPerS))
                    .min()
                    .orElseThrow();
        });
        return lowest.stream().mapToDouble(x -> x).min().orElseThrow()
                - build.limits().holdPressurePa();
    }

    /** @param stop null where none was found */
    private record Losing(RowDrive stop, double marginRadPerS) {}

    /**
     * A stop that is lost with both speeds lowered. The search has the least switch-off speed that goes with a switch-on
     * speed; with the pair's own the line may start from a slightly higher pressure, and a loss that shows takes a step more.
     */
    private Losing losing(List<StopLimit> stops, Pair pair, LookAhead ahead) {
        StopLimit hardest = Recommendation.hardest(stops);
        StopTrial trial = new StopTrial(build, Setting.ALONE, hardest.oilC(), ahead);
        for (int i = 0; i < LOSING_STEPS; i++) {
            double margin = pair.marginRadPerS() + i * SpeedSearch.STEP_RAD_PER_S;
            double on = pair.onRadPerS() - margin;
            if (on < SpeedSearch.LOWEST_RAD_PER_S * (1 - 1e-9)) {
                break;
            }
            RowDrive stop = trial.lost(hardest.rateRadPerS2(), on, pair.offRadPerS() - margin);
            if (stop != null) {
                return new Losing(stop, margin);
            }
        }
        return new Losing(null, pair.marginRadPerS());
    }
}
