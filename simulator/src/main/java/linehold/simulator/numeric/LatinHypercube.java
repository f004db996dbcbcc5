package linehold.simulator.numeric;

import java.util.Random;

/**
 * Points in the unit cube that stand evenly along every axis: n points fall one each into n slices of every axis, and
 * slices of different axes are paired at random (McKay, Beckman and Conover 1979, Technometrics 21:239–245).
 */
public final class LatinHypercube {
    private LatinHypercube() {}

    /**
     * @param random seeded; {@link Random} gives the same numbers on every Java
     * @return points by their coordinates, each from 0 to 1
     */
    public static double[][] points(int count, int axes, Random random) {
        double[][] points = new double[count][axes];
        int[] slices = new int[count];
        for (int axis = 0; axis < axes; axis++) {
            shuffle(slices, random);
            for (int i = 0; i < count; i++) {
                points[i][axis] = (slices[i] + random.nextDouble()) / count;
            }
        }
        return points;
    }

    /** Makes it a random order of 0, 1, 2 … (Fisher and Yates, inside out). */
    static void shuffle(int[] order, Random random) {
        for (int i = 0; i < order.length; i++) {
            int other = random.nextInt(i + 1);
            order[i] = order[other];
            order[other] = i;
        }
    }
}
