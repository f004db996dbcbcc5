package linehold.simulator.numeric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** The formula on systems whose solution is known in closed form. */
class ArrowheadStepperTest {
    private static final double COUPLING = 40;

    /**
     * Hub x and leaf y: x' = c·(y − x) + cos t, y' = c·(x − y), with the flow q = cos t. Sum s = x + y: s' = cos t, so
     * s = sin t + s0; difference d' = −2c·d + cos t.
     */
    private static final class Pair implements ArrowheadSystem {
        @Override
        public void evaluate(double t, double[] y, double[] f, double[] q) {
            f[0] = COUPLING * (y[1] - y[0]) + Math.cos(t);
            f[1] = COUPLING * (y[0] - y[1]);
            q[0] = Math.cos(t);
        }

        @Override
        public void linearise(double t, double[] y, double[] f, double[] q, Linearisation out) {
            evaluate(t, y, f, q);
            out.hubByHub = -COUPLING;
            out.hubByLeaf[1] = COUPLING;
            out.leafByHub[1] = COUPLING;
            out.leafByLeaf[1] = -COUPLING;
            out.byTime[0] = -Math.sin(t);
            out.flowByTime[0] = -Math.sin(t);
            out.tolerable[0] = 1;
            out.tolerable[1] = 1;
        }
    }

    /** d(t) of d' = −k·d + cos t, d(0) = d0. */
    private static double difference(double t, double d0) {
        double k = 2 * COUPLING;
        double particular = (k * Math.cos(t) + Math.sin(t)) / (k * k + 1);
        return particular + (d0 - k / (k * k + 1)) * Math.exp(-k * t);
    }

    private static double errorAfterOneSecond(int steps) {
        ArrowheadStepper stepper = new ArrowheadStepper(new Pair(), 2, 1);
        stepper.restart(0, new double[] {1, 0});
        for (int i = 0; i < steps; i++) {
            stepper.attempt(1.0 / steps);
            stepper.accept(1);
        }
        double x = 0.5 * (1 + Math.sin(1) + difference(1, 1));
        return Math.abs(stepper.startState(0) - x);
    }

    @Test
    void shouldConvergeWithOrderTwo() {
        double coarse = errorAfterOneSecond(200);
        double fine = errorAfterOneSecond(400);
        assertThat(coarse).isLessThan(1e-5);
        assertThat(coarse / fine).isBetween(3.5, 4.6);
    }

    @Test
    void shouldKeepFlowsAndStatesInBalanceToRounding() {
        ArrowheadStepper stepper = new ArrowheadStepper(new Pair(), 2, 1);
        stepper.restart(0, new double[] {1, 0});
        for (int i = 0; i < 50; i++) {
            stepper.attempt(0.3);
            double sum = stepper.state(0, 0.7) + stepper.state(1, 0.7);
            assertThat(sum - 1).isCloseTo(stepper.integral(0, 0.7), within(1e-13));
            stepper.accept(i % 3 == 0 ? 0.7 : 1);
        }
    }

    @Test
    void shouldDampAStiffStateInOneLongStep() {
        ArrowheadStepper stepper = new ArrowheadStepper(new Pair(), 2, 1);
        stepper.restart(0, new double[] {1e3, -1e3});
        stepper.attempt(1000);
        double difference = stepper.state(0, 1) - stepper.state(1, 1);
        assertThat(Math.abs(difference))
                .as("L-stable: 2000 becomes next to nothing")
                .isLessThan(1);
    }

    @Test
    void shouldEstimateAnErrorOfTheSizeItMakes() {
        ArrowheadStepper stepper = new ArrowheadStepper(new Pair(), 2, 1);
        stepper.restart(0, new double[] {1, 0});
        double step = 2e-3;
        double estimate = stepper.attempt(step);
        double x = 0.5 * (1 + Math.sin(step) + difference(step, 1));
        double made = Math.abs(stepper.state(0, 1) - x);
        assertThat(made).isPositive().isLessThan(2 * estimate);
        assertThat(estimate).isLessThan(50 * made);
    }

    @Test
    void shouldFindWhereTheInterpolantCrossesALevel() {
        ArrowheadStepper stepper = new ArrowheadStepper(new Pair(), 2, 1);
        stepper.restart(0, new double[] {1, 0});
        stepper.attempt(0.01);
        double level = stepper.state(0, 0.37);
        double crossing = stepper.crossing(0, level);
        assertThat(stepper.state(0, crossing)).isCloseTo(level, within(1e-14));
        assertThat(stepper.crossing(0, 2)).isInfinite();
        assertThat(stepper.crossing(0, stepper.startState(0)))
                .as("only left, not reached")
                .isInfinite();
        assertThat(stepper.least(0, 0, 1)).isLessThanOrEqualTo(Math.min(stepper.state(0, 0), stepper.state(0, 1)));
    }

    @Test
    void shouldReportAnErrorThatIsNoNumberAsBad() {
        ArrowheadStepper stepper = new ArrowheadStepper(new Pair(), 2, 1);
        stepper.restart(0, new double[] {Double.NaN, 0});
        assertThat(stepper.attempt(0.01) <= 1).isFalse();
    }

    @Test
    void shouldComeBackToItsStartWhenTriedAgainShorter() {
        ArrowheadStepper stepper = new ArrowheadStepper(new Pair(), 2, 1);
        stepper.restart(0, new double[] {1, 0});
        stepper.attempt(0.01);
        double once = stepper.state(0, 1);
        stepper.attempt(0.5);
        stepper.attempt(0.01);
        assertThat(stepper.state(0, 1)).isEqualTo(once);
    }
}
