package linehold.simulator.numeric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import java.util.function.ToDoubleFunction;
import linehold.simulator.numeric.ElementaryEffects.Effect;
import org.junit.jupiter.api.Test;

/**
 * Elementary effects of functions whose effects are known: those of Ishigami and Homma 1990 (Proceedings of ISUMA '90,
 * 398–403) and Sobol' (g-function, as in Saltelli and others 2008, Global Sensitivity Analysis, Wiley), both from memory,
 * and a straight line.
 */
class ElementaryEffectsReferenceTest {
    private static List<Effect> effects(int inputs, int paths, ToDoubleFunction<double[]> function) {
        ElementaryEffects design = new ElementaryEffects(inputs, paths, new Random(1));
        return design.effects(
                design.points().stream().map(function::applyAsDouble).toList());
    }

    private static double ishigami(double[] unit) {
        double[] x = new double[3];
        for (int i = 0; i < 3; i++) {
            x[i] = Math.PI * (2 * unit[i] - 1);
        }
        return Math.sin(x[0]) * (1 + 0.1 * Math.pow(x[2], 4)) + 7 * Math.pow(Math.sin(x[1]), 2);
    }

    /**
     * In closed form on the four levels -π, -π/3, π/3, π with moves of two levels, Δ = 2/3:
     * <pre>μ*1 = ¾√3·(1 + 0.1·(π⁴ + (π/3)⁴)/2)   μ*2 = 7·¾·3/2 = 7.875   μ*3 = 0.15·(π⁴ − (π/3)⁴)·√3/4</pre>
     * that is 7.70, 7.875 and 6.25. An independent general-purpose library (SALib, its test of the optimal trajectories)
     * finds 7.68, 7.875 and 6.26 on a design of its own.
     */
    @Test
    void shouldFindTheEffectsOfTheIshigamiFunction() {
        List<Effect> found = effects(3, 4000, ElementaryEffectsReferenceTest::ishigami);

        double high = Math.pow(Math.PI, 4);
        double low = Math.pow(Math.PI / 3, 4);
        assertThat(found.get(0).meanSize()).isCloseTo(0.75 * Math.sqrt(3) * (1 + 0.1 * (high + low) / 2), within(0.2));
        assertThat(found.get(1).meanSize()).isCloseTo(7.875, within(1e-9));
        assertThat(found.get(2).meanSize()).isCloseTo(0.15 * (high - low) * Math.sqrt(3) / 4, within(0.2));
        // x3 acts only together with x1, with as much gain as loss: its mean is nothing, its deviation is all
        assertThat(found.get(2).mean()).isCloseTo(0, within(0.2));
        assertThat(found.get(2).deviation()).isGreaterThan(6);
    }

    /** Published order of importance with a = 0, 1, 4.5, 9, 99: that of the inputs (Saltelli and others 2008). */
    @Test
    void shouldRankTheInputsOfTheGFunctionAsPublished() {
        double[] a = {0, 1, 4.5, 9, 99};
        List<Effect> found = effects(5, 50, x -> {
            double product = 1;
            for (int i = 0; i < a.length; i++) {
                // a level on a symmetry of |4x − 2| would show no effect; a third of the axis is not
                product *= (Math.abs(4 * (0.2 + 0.5 * x[i]) - 2) + a[i]) / (1 + a[i]);
            }
            return product;
        });

        for (int i = 1; i < a.length; i++) {
            assertThat(found.get(i).meanSize())
                    .as("x%d", i + 1)
                    .isLessThan(found.get(i - 1).meanSize());
        }
    }

    @Test
    void shouldFindTheSlopesOfAStraightLineExactly() {
        List<Effect> found = effects(3, 10, x -> 5 - 2 * x[0] + 0.5 * x[2]);

        assertThat(found.get(0).mean()).isCloseTo(-2, within(1e-12));
        assertThat(found.get(0).meanSize()).isCloseTo(2, within(1e-12));
        assertThat(found.get(0).deviation()).isCloseTo(0, within(1e-12));
        assertThat(found.get(1).meanSize()).isZero();
        assertThat(found.get(2).mean()).isCloseTo(0.5, within(1e-12));
    }
}
