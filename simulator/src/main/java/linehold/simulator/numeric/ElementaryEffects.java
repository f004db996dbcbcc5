package linehold.simulator.numeric;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * Which of many inputs moves a response most, by elementary effects: paths through a grid of four levels an axis, on which
 * one input at a time is moved by two levels (Morris 1991, Technometrics 33:161–174), ranked by the mean of their absolute
 * values μ* (Campolongo, Cariboni and Saltelli 2007, Environmental Modelling and Software 22:1509–1518).
 */
public final class ElementaryEffects {
    private static final int LEVELS = 4;
    /** Length of a move, as a share of the axis. */
    private static final double MOVE = LEVELS / (2.0 * (LEVELS - 1));

    private final int inputs;
    private final List<double[]> points = new ArrayList<>();
    /** Which input was moved on the way to each point; -1 at the start of a path. */
    private final List<Integer> moved = new ArrayList<>();

    /**
     * How a response moves when one input goes from its low end to its high end.
     *
     * @param meanSize μ*, mean of the absolute effects
     * @param mean μ, with sign
     * @param deviation σ, standard deviation of the effects: how much an effect depends on the other inputs or on where
     *     this one stands
     */
    public record Effect(double meanSize, double mean, double deviation) {}

    /**
     * @param paths number of paths, two or more; each takes {@code inputs + 1} points
     * @param random seeded
     */
    public ElementaryEffects(int inputs, int paths, Random random) {
        this.inputs = inputs;
        for (int path = 0; path < paths; path++) {
            lay(random);
        }
    }

    private void lay(Random random) {
        int[] level = random.ints(inputs, 0, LEVELS).toArray();
        add(level, -1);
        int[] order = new int[inputs];
        LatinHypercube.shuffle(order, random);
        for (int input : order) {
            level[input] = (level[input] + LEVELS / 2) % LEVELS;
            add(level, input);
        }
    }

    private void add(int[] level, int input) {
        double[] point = new double[inputs];
        for (int i = 0; i < inputs; i++) {
            point[i] = level[i] / (LEVELS - 1.0);
        }
        points.add(point);
        moved.add(input);
    }

    /** Where the response is wanted: points of the unit cube. */
    public List<double[]> points() {
        return List.copyOf(points);
    }

    /**
     * @param responses one for each point, in their order
     * @return one for each input
     */
    public List<Effect> effects(List<Double> responses) {
        List<List<Double>> effects = new ArrayList<>();
        for (int input = 0; input < inputs; input++) {
            effects.add(new ArrayList<>());
        }
        for (int i = 0; i < points.size(); i++) {
            int input = moved.get(i);
            if (input >= 0) {
                boolean up = points.get(i)[input] > points.get(i - 1)[input];
                double change = responses.get(i) - responses.get(i - 1);
                effects.get(input).add((up ? change : -change) / MOVE);
            }
        }
        return effects.stream().map(ElementaryEffects::effect).toList();
    }

    private static Effect effect(List<Double> effects) {
        double mean = effects.stream().mapToDouble(x -> x).average().orElseThrow();
        double size = effects.stream().mapToDouble(Math::abs).average().orElseThrow();
        double squares =
                effects.stream().mapToDouble(x -> (x - mean) * (x - mean)).sum();
        return new Effect(size, mean, Math.sqrt(squares / (effects.size() - 1)));
    }
}
