package linehold.simulator.circuit;

/**
 * Flow through a sharp-edged orifice, made smooth around zero:
 *
 * <pre>Q = Cd·A·sq(x),  x the pressure difference
 * sq(x) = sign(x)·√(2|x|/ρ)                                     |x| ≥ x_lin
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

    /** Flow, m³/s, of the sign of the pressure difference, Pa, through Cd·A, m². */
    double flow(double areaM2, double differencePa) {
        double magnitude = Math.abs(differencePa);
        if (magnitude >= linearBelowPa) {
            return Math.copySign(areaM2 * root2PerDensity * Math.sqrt(magnitude), differencePa);
        }
        double part = differencePa / linearBelowPa;
        return areaM2 * differencePa * linearSlope * (1.25 - 0.25 * part * part);
    }

    /** Derivative of {@link #flow} by the pressure difference, m³/(s·Pa), given the flow there. */
    double conductance(double areaM2, double differencePa, double flowM3PerS) {
        if (Math.abs(differencePa) >= linearBelowPa) {
            return 0.5 * flowM3PerS / differencePa;
        }
        double part = differencePa / linearBelowPa;
        return areaM2 * linearSlope * (1.25 - 0.75 * part * part);
    }
}
