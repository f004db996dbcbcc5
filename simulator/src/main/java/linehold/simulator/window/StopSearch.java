package linehold.simulator.window;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import linehold.simulator.build.Build;
import linehold.simulator.drive.Manoeuvres;
import linehold.simulator.run.Parallel;
import linehold.simulator.window.Window.Found;
import linehold.simulator.window.Window.RulePoint;
import linehold.simulator.window.Window.StopLimit;
import linehold.simulator.window.Window.WindowMap;

/** The searches over stops: lowest switch-on speeds, reach of the rule of thumb, map. All cores; one order of results. */
final class StopSearch {
    private static final double RPM = Math.PI / 30;
    private static final double SLOWEST_RAD_PER_S2 = 300 * RPM;
    /** Steps of equal ratio from the slowest stop to the dry lock, and on to the lock on ice. */
    private static final int STEPS_TO_DRY = 8;

    private static final int STEPS_TO_ICE = 3;
    private static final int RULE_HALVINGS = 10;

    private static final double[] MAP_ON_RPM = {
        150, 200, 250, 300, 400, 500, 600, 700, 800, 900, 1000, 1200, 1500, 2000, 2500, 3000
    };

    private final Build build;
    private final List<Double> oilC;
    private final LookAhead ahead;

    StopSearch(Build build, List<Double> oilC, LookAhead ahead) {
        this.build = build;
        this.oilC = oilC;
        this.ahead = ahead;
    }

    /** Twelve rates from gentle driving to wheels locked on ice, rad/s², rising. */
    static List<Double> rates() {
        List<Double> rates = new ArrayList<>();
        double dry = Manoeuvres.DRY_RATE_RAD_PER_S2;
        double ice = Manoeuvres.ICE_RATE_RAD_PER_S2;
        for (int i = 0; i < STEPS_TO_DRY; i++) {
            rates.add(SLOWEST_RAD_PER_S2 * StrictMath.pow(dry / SLOWEST_RAD_PER_S2, (double) i / STEPS_TO_DRY));
        }
        for (int i = 0; i < STEPS_TO_ICE; i++) {
            rates.add(dry * StrictMath.pow(ice / dry, (double) i / STEPS_TO_ICE));
        }
        rates.add(ice);
        return List.copyOf(rates);
    }

    int limitSteps() {
        return oilC.size() * Setting.values().length;
    }

    /** By oil temperature, then by rate. */
    List<StopLimit> limits(Runnable done) {
        List<Double> rates = rates();
        List<Callable<List<Found>>> tasks = new ArrayList<>();
        for (double temperature : oilC) {
            for (Setting setting : Setting.values()) {
                tasks.add(() -> chain(new StopTrial(build, setting, temperature, ahead), rates));
            }
        }
        List<List<Found>> chains = Parallel.all(tasks, done);
        List<StopLimit> limits = new ArrayList<>();
        int settings = Setting.values().length;
        for (int t = 0; t < oilC.size(); t++) {
            for (int r = 0; r < rates.size(); r++) {
                List<Found> found = new ArrayList<>();
                for (int s = 0; s < settings; s++) {
                    found.add(chains.get(t * settings + s).get(r));
                }
                limits.add(new StopLimit(oilC.get(t), rates.get(r), List.copyOf(found)));
            }
        }
        return List.copyOf(limits);
    }

    /** The speed found for one stop is where the search for the next one starts. */
    private static List<Found> chain(StopTrial trial, List<Double> rates) {
        List<Found> found = new ArrayList<>();
        double guess = Double.NaN;
        for (double rate : rates) {
            double on = SpeedSearch.lowest(trial, rate, guess);
            guess = Double.isNaN(on) ? guess : on;
            found.add(new Found(on, trial.lowestPa(rate, Window.RULE_RAD_PER_S)));
        }
        return found;
    }

    /** How hard a stop may be for the rule of thumb, by oil temperature. */
    List<RulePoint> rule(Runnable done) {
        List<Callable<RulePoint>> tasks = new ArrayList<>();
        for (double temperature : oilC) {
            tasks.add(() -> rule(temperature));
        }
        return Parallel.all(tasks, done);
    }

    private RulePoint rule(double temperature) {
        StopTrial trial = new StopTrial(build, Setting.ALONE, temperature, ahead);
        double low = 0;
        double high = Double.POSITIVE_INFINITY;
        for (double rate : rates()) {
            if (!trial.holds(rate, Window.RULE_RAD_PER_S)) {
                high = rate;
                break;
            }
            low = rate;
        }
        if (low == 0 || Double.isInfinite(high)) {
            return new RulePoint(temperature, low == 0 ? 0 : high);
        }
        for (int i = 0; i < RULE_HALVINGS; i++) {
            double middle = Math.sqrt(low * high);
            if (trial.holds(middle, Window.RULE_RAD_PER_S)) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return new RulePoint(temperature, low);
    }

    /** The switch-on speeds of the maps, with the recommended one among them where there is one (not NaN), rad/s, rising. */
    static List<Double> mapSpeeds(double recommendedRadPerS) {
        List<Double> speeds = new ArrayList<>();
        for (double rpm : MAP_ON_RPM) {
            speeds.add(rpm * RPM);
        }
        boolean there = speeds.stream().anyMatch(on -> Math.abs(on - recommendedRadPerS) < 1e-6);
        if (!there && !Double.isNaN(recommendedRadPerS)) {
            speeds.add(recommendedRadPerS);
        }
        return speeds.stream().sorted().toList();
    }

    /** By oil temperature. */
    List<WindowMap> maps(List<Double> speeds, Runnable done) {
        List<Double> rates = rates();
        List<Callable<List<Double>>> tasks = new ArrayList<>();
        for (double temperature : oilC) {
            StopTrial trial = new StopTrial(build, Setting.ALONE, temperature, ahead);
            for (double on : speeds) {
                tasks.add(() ->
                        rates.stream().map(rate -> trial.lowestPa(rate, on)).toList());
            }
        }
        List<List<Double>> rows = Parallel.all(tasks, done);
        List<WindowMap> maps = new ArrayList<>();
        for (int t = 0; t < oilC.size(); t++) {
            int from = t * speeds.size();
            maps.add(new WindowMap(oilC.get(t), speeds, rates, List.copyOf(rows.subList(from, from + speeds.size()))));
        }
        return List.copyOf(maps);
    }
}
