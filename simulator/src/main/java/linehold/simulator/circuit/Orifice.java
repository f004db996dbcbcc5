package linehold.simulator.circuit;

/**
 * The square-root law of a sharp-edged orifice per unit of Cd·A, made smooth around zero:
 *
 * <pre>sq(x) = sign(x)·√(2|x|/ρ)                                     |x| ≥ x_lin
 * sq(x) = x·√(2/(ρ·x_lin))·(1.25 − 0.25·(x/x_lin)²)          |x| &lt; x_lin</pre>
 *
 * <p>Value and slope are continuous at x_lin. Source of the law: e.g. Merritt 1967, ch. 3; of the smoothing: our own.
 */
final class Orifice {
    private final double linearBelowPa;
    private double root2PerDensity;
    private double linearSlope;

    Orifice(double linearBelowPa) {
        this.linearBelowPa = linearBelowPa;
    }

    void setDensity(double densityKgPerM3) {
        root2PerDensity = Math.sqrt(2 / densityKgPerM3);
        linearSlope = root2PerDensity / Math.sqrt(linearBelowPa);
    }

    /** Mean velocity behind a pressure difference, m/s: flow is this times Cd·A. */
    double velocity(double differencePa) {
        double magnitude = Math.abs(differencePa);
        if (magnitude >= linearBelowPa) {
            double velocity = root2PerDensity * Math.sqrt(magnitude);
            return differencePa < 0 ? -velocity : velocity;
        }
        double part = differencePa / linearBelowPa;
        return differencePa * linearSlope * (1.25 - 0.25 * part * part);
    }

    /** Derivative of {@link #velocity} by the pressure difference, m/(s·Pa), given the velocity there. */
    double slope(double differencePa, double velocity) {
        if (Math.abs(differencePa) >= linearBelowPa) {
            return 0.5 * velocity / differencePa;
        }
        double part = differencePa / linearBelowPa;
        return linearSlope * (1.25 - 0.75 * part * part);
    }
}
