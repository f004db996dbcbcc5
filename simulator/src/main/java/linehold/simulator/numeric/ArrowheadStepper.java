package linehold.simulator.numeric;

import linehold.simulator.numeric.ArrowheadSystem.Linearisation;

/**
 * One step of the modified Rosenbrock formula of order 2 with an error estimate of order 3 and a quadratic interpolant,
 * L-stable, for arrowhead systems (Shampine and Reichelt, SIAM J. Sci. Comput. 18 (1997) 1, section 3.1). With
 * {@code W = I − h·d·J, d = 1/(2 + √2), e = 6 + √2, T = ∂f/∂t}:
 *
 * <pre>W·k1 = f0 + h·d·T
 * W·(k2 − k1) = f(t + h/2, y0 + h/2·k1) − k1
 * y1 = y0 + h·k2
 * W·k3 = f(t + h, y1) − e·(k2 − f1) − 2·(k1 − f0) + h·d·T
 * error = h/6·(k1 − 2·k2 + k3)
 * y(t + s·h) = y0 + h·[ s(1 − s)/(1 − 2d)·k1 + s(s − 2d)/(1 − 2d)·k2 ]</pre>
 *
 * <p>The interpolant being a quadratic, the instant at which a state crosses a level is the root of a quadratic. It never
 * allocates after construction.
 */
public final class ArrowheadStepper {
    private static final double D = 1 / (2 + Math.sqrt(2));
    private static final double E = 6 + Math.sqrt(2);

    private static final double AT_ONCE = 1e-6;

    private final ArrowheadSystem system;
    private final int states;
    private final int flows;
    private final Linearisation jacobian;
    private final double[] y0;
    private final double[] f0;
    private final double[] k1;
    private final double[] k2;
    private final double[] stage;
    private final double[] f;
    private final double[] right;
    private final double[] solved;
    private final double[] pivot;
    private final double[] q0;
    private final double[] q;
    private final double[] flowLinear;
    private final double[] flowSquare;
    private final double[] integral;
    private double hubPivot;
    private double startS;
    private double lengthS;
    private boolean linearised;

    public ArrowheadStepper(ArrowheadSystem system, int states, int flows) {
        this.system = system;
        this.states = states;
        this.flows = flows;
        jacobian = new Linearisation(states, flows);
        y0 = new double[states];
        f0 = new double[states];
        k1 = new double[states];
        k2 = new double[states];
        stage = new double[states];
        f = new double[states];
        right = new double[states];
        solved = new double[states];
        pivot = new double[states];
        q0 = new double[flows];
        q = new double[flows];
        flowLinear = new double[flows];
        flowSquare = new double[flows];
        integral = new double[flows];
    }

    /** Starts afresh from a state; integrals of the flows are kept. */
    public void restart(double timeS, double[] state) {
        System.arraycopy(state, 0, y0, 0, states);
        startS = timeS;
        lengthS = 0;
        linearised = false;
    }

    /** Something outside the state has changed: derivatives at the start are to be taken again. */
    public void invalidate() {
        linearised = false;
    }

    /**
     * Tries a step from the present start. It may be tried again with another length before {@link #accept}.
     *
     * @param stepS length, s, above 0
     * @return largest error over what is tolerable: 1 or less is good
     */
    public double attempt(double stepS) {
        if (!linearised) {
            system.linearise(startS, y0, f0, q0, jacobian);
            linearised = true;
        }
        lengthS = stepS;
        factorise(stepS * D);

        for (int i = 0; i < states; i++) {
            right[i] = f0[i] + stepS * D * jacobian.byTime[i];
        }
        solve(stepS * D);
        System.arraycopy(solved, 0, k1, 0, states);

        for (int i = 0; i < states; i++) {
            stage[i] = y0[i] + 0.5 * stepS * k1[i];
        }
        system.evaluate(startS + 0.5 * stepS, stage, f, q);
        for (int i = 0; i < states; i++) {
            right[i] = f[i] - k1[i];
        }
        solve(stepS * D);
        for (int i = 0; i < states; i++) {
            k2[i] = solved[i] + k1[i];
            stage[i] = y0[i] + stepS * k2[i];
            // f1 − k2 is kept for the error estimate
            right[i] = f[i] - k2[i];
        }
        flowCoefficients(stepS);
        return error(stepS);
    }

    private double error(double stepS) {
        for (int i = 0; i < states; i++) {
            right[i] = E * right[i] - 2 * (k1[i] - f0[i]) + stepS * D * jacobian.byTime[i];
        }
        system.evaluate(startS + stepS, stage, f, q);
        for (int i = 0; i < states; i++) {
            right[i] += f[i];
        }
        solve(stepS * D);
        double worst = 0;
        for (int i = 0; i < states; i++) {
            double part = Math.abs(stepS / 6 * (k1[i] - 2 * k2[i] + solved[i])) / jacobian.tolerable[i];
            // NaN must count as a bad step, so the comparison is written to let it through
            worst = part <= worst ? worst : part;
        }
        return worst;
    }

    /** The flows' integrals follow the same two stages: z(s) = h·(a·s + b·s²). */
    private void flowCoefficients(double stepS) {
        double hd = stepS * D;
        double deltaHub = k2[0] - k1[0];
        double deltaLeaf = k2[1] - k1[1];
        for (int j = 0; j < flows; j++) {
            double byHub = jacobian.flowByHub[j];
            double byLeaf = jacobian.flowByFirstLeaf[j];
            double first = q0[j] + hd * (byHub * k1[0] + byLeaf * k1[1] + jacobian.flowByTime[j]);
            double second = q[j] + hd * (byHub * deltaHub + byLeaf * deltaLeaf);
            flowLinear[j] = stepS * (first - 2 * D * second) / (1 - 2 * D);
            flowSquare[j] = stepS * (second - first) / (1 - 2 * D);
        }
    }

    /** Value of a state at a fraction s of the step. */
    public double state(int i, double fraction) {
        return y0[i] + fraction * (linear(i) + fraction * square(i));
    }

    /** Value of a state at the start of the step. */
    public double startState(int i) {
        return y0[i];
    }

    /** Least value of a state between two fractions of the step. */
    public double least(int i, double from, double to) {
        double least = Math.min(state(i, from), state(i, to));
        double vertex = -0.5 * linear(i) / square(i);
        return vertex > from && vertex < to ? Math.min(least, state(i, vertex)) : least;
    }

    /** The integral of a flow from the beginning to a fraction of the present step. */
    public double integral(int j, double fraction) {
        return lengthS == 0 ? integral[j] : integral[j] + fraction * (flowLinear[j] + fraction * flowSquare[j]);
    }

    /**
     * First fraction in (0, 1] at which a state reaches a level; infinite if none. A state that has the level at the
     * start can come back to it, but not at once: that would be rounding.
     */
    public double crossing(int i, double level) {
        // b·s² + a·s + c = 0
        double a = linear(i);
        double b = square(i);
        double c = y0[i] - level;
        if (c == 0) {
            double back = -a / b;
            return back > AT_ONCE ? inStep(back) : Double.POSITIVE_INFINITY;
        }
        double discriminant = a * a - 4 * b * c;
        if (discriminant < 0) {
            return Double.POSITIVE_INFINITY;
        }
        double sum = -0.5 * (a + Math.copySign(Math.sqrt(discriminant), a));
        return Math.min(inStep(sum / b), inStep(c / sum));
    }

    private static double inStep(double fraction) {
        return fraction > 0 && fraction <= 1 ? fraction : Double.POSITIVE_INFINITY;
    }

    /** Takes the step as far as {@code fraction} and makes that the new start. */
    public void accept(double fraction) {
        for (int i = 0; i < states; i++) {
            y0[i] = state(i, fraction);
        }
        for (int j = 0; j < flows; j++) {
            integral[j] = integral(j, fraction);
        }
        startS += fraction * lengthS;
        lengthS = 0;
        linearised = false;
    }

    /** Sets a state at the present start, for a clamp or an event that fixes its value. */
    public void set(int i, double value) {
        y0[i] = value;
        linearised = false;
    }

    public double startS() {
        return startS;
    }

    /** Sets the time of the present start exactly, against drift of rounding. */
    public void setStartS(double timeS) {
        startS = timeS;
    }

    public double lengthS() {
        return lengthS;
    }

    private double linear(int i) {
        return lengthS * (k1[i] - 2 * D * k2[i]) / (1 - 2 * D);
    }

    private double square(int i) {
        return lengthS * (k2[i] - k1[i]) / (1 - 2 * D);
    }

    /** W = I − hd·J as an arrowhead: the leaves are eliminated, the hub remains. */
    private void factorise(double hd) {
        double hub = 1 - hd * jacobian.hubByHub;
        for (int i = 1; i < states; i++) {
            pivot[i] = 1 / (1 - hd * jacobian.leafByLeaf[i]);
            hub -= hd * hd * jacobian.hubByLeaf[i] * jacobian.leafByHub[i] * pivot[i];
        }
        hubPivot = 1 / hub;
    }

    private void solve(double hd) {
        double hub = right[0];
        for (int i = 1; i < states; i++) {
            hub += hd * jacobian.hubByLeaf[i] * right[i] * pivot[i];
        }
        hub *= hubPivot;
        solved[0] = hub;
        for (int i = 1; i < states; i++) {
            solved[i] = (right[i] + hd * jacobian.leafByHub[i] * hub) * pivot[i];
        }
    }
}
