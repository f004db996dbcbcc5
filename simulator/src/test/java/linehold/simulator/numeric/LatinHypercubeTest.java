package linehold.simulator.numeric;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;

class LatinHypercubeTest {
    @Test
    void shouldPutOnePointIntoEverySliceOfEveryAxis() {
        int count = 97;
        double[][] points = LatinHypercube.points(count, 5, new Random(3));
        for (int axis = 0; axis < 5; axis++) {
            boolean[] taken = new boolean[count];
            for (double[] point : points) {
                int slice = (int) Math.floor(point[axis] * count);
                assertThat(taken[slice]).isFalse();
                taken[slice] = true;
            }
        }
    }

    @Test
    void shouldGiveTheSamePointsForTheSameSeedAndOthersForAnother() {
        assertThat(LatinHypercube.points(20, 3, new Random(1)))
                .isDeepEqualTo(LatinHypercube.points(20, 3, new Random(1)));
        assertThat(LatinHypercube.points(20, 3, new Random(1))[0])
                .isNotEqualTo(LatinHypercube.points(20, 3, new Random(2))[0]);
    }

    /** The mean of a sum of the axes scatters far less than with independent draws (McKay, Beckman and Conover 1979). */
    @Test
    void shouldAverageASteadyFunctionCloserThanIndependentDraws() {
        double hypercube = 0;
        double independent = 0;
        for (int seed = 0; seed < 50; seed++) {
            Random random = new Random(seed);
            hypercube += Math.pow(meanSum(LatinHypercube.points(100, 4, random)) - 2, 2);
            double[][] drawn = new double[100][4];
            for (double[] point : drawn) {
                for (int i = 0; i < 4; i++) {
                    point[i] = random.nextDouble();
                }
            }
            independent += Math.pow(meanSum(drawn) - 2, 2);
        }
        assertThat(hypercube).isLessThan(independent / 1000);
    }

    private static double meanSum(double[][] points) {
        double sum = 0;
        for (double[] point : points) {
            for (double x : point) {
                sum += x;
            }
        }
        return sum / points.length;
    }
}
