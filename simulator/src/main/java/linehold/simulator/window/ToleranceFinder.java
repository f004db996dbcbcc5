package linehold.simulator.window;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.Callable;
import linehold.simulator.build.Spread;
import linehold.simulator.numeric.ElementaryEffects;
import linehold.simulator.numeric.ElementaryEffects.Effect;
import linehold.simulator.numeric.LatinHypercube;
import linehold.simulator.prove.Loss.Criterion;
import linehold.simulator.prove.Reserve;
import linehold.simulator.run.Parallel;
import linehold.simulator.window.Tolerance.Answer;
import linehold.simulator.window.Tolerance.Corner;
import linehold.simulator.window.Tolerance.Share;
import linehold.simulator.window.Tolerance.Weight;
import linehold.simulator.window.ToleranceTrial.Weakest;
import org.hipparchus.stat.interval.BinomialProportion;
import org.hipparchus.stat.interval.ConfidenceInterval;

/**
 * Finds what the spreads of a build do to a window. Values are drawn evenly between the ends of their spreads and
 * independently of each other (assumed: a tolerance says no more, and cars in truth lie nearer to the middle).
 */
public final class ToleranceFinder {
    /** Of every interval (common practice). */
    public static final double CONFIDENCE = 0.95;

    private static final String PANIC_STOP = "panic-stop";

    /** Paths for the ranking (common practice: ten to fifty). */
    private static final int PATHS = 20;

    private final ToleranceTrial trial;
    private final List<Spread> spreads;
    private final List<Double> oilC;
    private final int cars;
    private final long seed;
    private final Watch watch;

    /**
     * @param window with a recommended pair; its build has spreads
     * @param cars how many cars to draw, 1 or more
     * @param seed of the draw and of the sensors' noise
     */
    public ToleranceFinder(Window window, int cars, long seed, Watch watch) {
        this(ToleranceTrial.of(window, seed), window.oilC(), cars, seed, watch);
    }

    ToleranceFinder(ToleranceTrial trial, List<Double> oilC, int cars, long seed, Watch watch) {
        this.trial = trial;
        this.spreads = trial.spreads();
        this.oilC = oilC;
        this.cars = cars;
        this.seed = seed;
        this.watch = watch;
        if (spreads.isEmpty() || cars < 1) {
            throw new IllegalArgumentException("tolerances need spreads and at least one car");
        }
    }

    public Tolerance find() {
        List<Answer> answers = new ArrayList<>();
        boolean[] heldEverywhere = new boolean[cars];
        Arrays.fill(heldEverywhere, true);
        for (Weakest weakest : places()) {
            List<Reserve> drawn = drawn(weakest.drive(), weakest.oilC());
            for (int i = 0; i < cars; i++) {
                heldEverywhere[i] &= drawn.get(i).held();
            }
            answers.add(answer(weakest, drawn));
        }
        int held = 0;
        for (boolean car : heldEverywhere) {
            held += car ? 1 : 0;
        }
        return new Tolerance(cars, seed, CONFIDENCE, spreads, held, share(held, cars), answers);
    }

    /** Where to look: the window is there for hot panic stops, but a car must hold elsewhere too. */
    private List<Weakest> places() {
        double hottest = oilC.get(oilC.size() - 1);
        Set<Weakest> places = new LinkedHashSet<>();
        places.add(trial.weakest(hottest, drive -> drive.name().startsWith(PANIC_STOP)));
        places.add(trial.weakest(hottest, drive -> true));
        places.add(trial.weakest(oilC.get(0), drive -> true));
        return List.copyOf(places);
    }

    private Answer answer(Weakest place, List<Reserve> drawn) {
        String drive = place.drive();
        CornerSearch search = new CornerSearch(trial, drive, place.oilC());
        Corner corner = search.worst(watch.begin("worst car", search.steps()));
        Map<Criterion, Integer> lost = new EnumMap<>(Criterion.class);
        drawn.stream().filter(car -> !car.held()).forEach(car -> lost.merge(car.lost(), 1, Integer::sum));
        int held = (int) drawn.stream().filter(Reserve::held).count();
        double lowest = drawn.stream().mapToDouble(Reserve::least).min().orElseThrow();
        List<Weight> ranking = ranking(drive, place.oilC());
        return new Answer(drive, place.oilC(), place.reserve(), corner, held, share(held, cars), lowest, lost, ranking);
    }

    /** Every car has its own noise of the sensors. */
    private List<Reserve> drawn(String drive, double temperature) {
        double[][] points = LatinHypercube.points(cars, spreads.size(), new Random(seed));
        List<Callable<Reserve>> tasks = new ArrayList<>();
        for (int i = 0; i < cars; i++) {
            long number = i;
            double[] point = points[i];
            tasks.add(() -> trial.reserve(drive, temperature, trial.at(point), number));
        }
        return Parallel.all(tasks, watch.begin("cars", cars));
    }

    private List<Weight> ranking(String drive, double temperature) {
        ElementaryEffects paths = new ElementaryEffects(spreads.size(), PATHS, new Random(seed));
        List<Callable<Double>> tasks = new ArrayList<>();
        for (double[] point : paths.points()) {
            tasks.add(
                    () -> trial.reserve(drive, temperature, trial.at(point), 0).least());
        }
        List<Double> responses = Parallel.all(tasks, watch.begin("ranking", tasks.size()));
        List<Effect> effects = paths.effects(responses);
        List<Weight> weights = new ArrayList<>();
        for (int i = 0; i < spreads.size(); i++) {
            Effect effect = effects.get(i);
            weights.add(new Weight(spreads.get(i), effect.meanSize(), effect.mean(), effect.deviation()));
        }
        // a stable sort: equal ones stay in the order of the keys
        weights.sort(Comparator.comparingDouble(Weight::meanSize).reversed());
        return weights;
    }

    /**
     * The score interval of Wilson 1927 (Journal of the American Statistical Association 22:209–212), recommended by
     * Newcombe 1998 (Statistics in Medicine 17:857–872) also where no car or every car holds. It is that of independent
     * draws; a Latin hypercube scatters less where the answer follows each value steadily.
     */
    static Share share(int held, int cars) {
        double share = held / (double) cars;
        ConfidenceInterval interval = BinomialProportion.getWilsonScoreInterval(cars, share, CONFIDENCE);
        return new Share(share, Math.max(0, interval.getLowerBound()), Math.min(1, interval.getUpperBound()));
    }
}
