package linehold.simulator.size;

/**
 * Pressure lost in a round line.
 *
 * <pre>v = Q/(π/4·D²),  Re = v·D/ν
 * Δp = (f·L/D + ΣK)·ρ·v²/2                                     Darcy-Weisbach; K for fittings
 * f = 8·[(8/Re)^12 + (A + B)^−1.5]^(1/12)                     Churchill, Chem. Eng. 84 (1977) 24, 91: all flow regimes
 * A = {2.457·ln[1/((7/Re)^0.9 + 0.27·e/D)]}^16,  B = (37530/Re)^16</pre>
 *
 * <p>In laminar flow f is 64/Re. Between Re 2000 and 4000 the flow is neither, and so is the value.
 */
final class PipeFlow {
    /** The usual fluid power rule gives the loss of a check valve as 4 velocity heads (Esposito, from memory). */
    static final double CHECK_VALVE_K = 4;

    private PipeFlow() {}

    static double velocity(double flowM3PerS, double boreM) {
        return flowM3PerS / (Math.PI / 4 * boreM * boreM);
    }

    static double reynolds(double velocityMPerS, double boreM, double kinematicM2PerS) {
        return velocityMPerS * boreM / kinematicM2PerS;
    }

    /** Darcy friction factor. */
    static double churchill(double reynolds, double relativeRoughness) {
        double a = StrictMath.pow(
                2.457 * StrictMath.log(1 / (StrictMath.pow(7 / reynolds, 0.9) + 0.27 * relativeRoughness)), 16);
        double b = StrictMath.pow(37530 / reynolds, 16);
        return 8 * StrictMath.pow(StrictMath.pow(8 / reynolds, 12) + StrictMath.pow(a + b, -1.5), 1.0 / 12);
    }

    /**
     * Pressure lost in a smooth line, Pa.
     *
     * @param fittings sum of the loss coefficients K
     */
    static double lossPa(
            double flowM3PerS,
            double boreM,
            double lengthM,
            double fittings,
            double viscosityPaS,
            double densityKgPerM3) {
        if (flowM3PerS == 0) {
            return 0;
        }
        double velocity = velocity(flowM3PerS, boreM);
        double f = churchill(reynolds(velocity, boreM, viscosityPaS / densityKgPerM3), 0);
        return (f * lengthM / boreM + fittings) * headPa(velocity, densityKgPerM3);
    }

    /** ρ·v²/2, Pa. */
    static double headPa(double velocityMPerS, double densityKgPerM3) {
        return densityKgPerM3 * velocityMPerS * velocityMPerS / 2;
    }

    /** Dash size of a hose: its bore in sixteenths of an inch (SAE J517 family), the largest that is not wider. */
    static int dash(double boreM) {
        // Hose bores are rounded: -6 is sold as 9.5 mm, 3/8 in is 9.525 mm.
        return (int) Math.floor((boreM + 0.2e-3) / (0.0254 / 16));
    }
}
