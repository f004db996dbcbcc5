package linehold.simulator.numeric;

/**
 * A stiff system whose Jacobian is an arrowhead: state 0, the hub, is coupled with every other state, the leaves, and
 * no leaf with another leaf.
 *
 * <p>Beside the states the system reports flows, whose integrals the stepper keeps with the same weights as the states,
 * so that a balance that holds between rates holds between integrals to rounding. A flow may depend on the hub, on leaf
 * 1 and on time.
 */
public interface ArrowheadSystem {
    /** Rates f(t, y) and flows q(t, y). */
    void evaluate(double timeS, double[] y, double[] f, double[] q);

    /** Rates and flows, and with them all derivatives and the error scale at this point. */
    void linearise(double timeS, double[] y, double[] f, double[] q, Linearisation out);

    /** Derivatives at one point, owned by the stepper and filled by the system. */
    final class Linearisation {
        /** ∂f_0/∂y_0. */
        public double hubByHub;
        /** ∂f_0/∂y_i; entry 0 is not used. */
        public final double[] hubByLeaf;
        /** ∂f_i/∂y_0; entry 0 is not used. */
        public final double[] leafByHub;
        /** ∂f_i/∂y_i; entry 0 is not used. */
        public final double[] leafByLeaf;
        /** ∂f_i/∂t. */
        public final double[] byTime;
        /** ∂q_j/∂y_0. */
        public final double[] flowByHub;
        /** ∂q_j/∂y_1. */
        public final double[] flowByFirstLeaf;
        /** ∂q_j/∂t. */
        public final double[] flowByTime;
        /** Error of state i that is just tolerable in one step. */
        public final double[] tolerable;

        Linearisation(int states, int flows) {
            hubByLeaf = new double[states];
            leafByHub = new double[states];
            leafByLeaf = new double[states];
            byTime = new double[states];
            flowByHub = new double[flows];
            flowByFirstLeaf = new double[flows];
            flowByTime = new double[flows];
            tolerable = new double[states];
        }
    }
}
