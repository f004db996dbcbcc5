package linehold.simulator.size;

/**
 * Copper cable.
 *
 * <pre>d = 0.005 in · 92^((36 − n)/39)              ASTM B258, American wire gauge n
 * R20 = L/(58 m/(Ω·mm²)·A)                     IEC 60028, annealed copper at 20 °C
 * R(T) = R20·[1 + 0.00393·(T − 20 °C)]         IEC 60028</pre>
 *
 * <p>For solid wire. A stranded cable of the same gauge has a few per cent more resistance (common practice).
 */
final class Copper {
    private static final double RESISTIVITY_OHM_M = 1e-6 / 58;
    private static final double COEFFICIENT_PER_K = 0.00393;

    private Copper() {}

    static double gaugeDiameterM(double awg) {
        return 0.005 * 0.0254 * StrictMath.pow(92, (36 - awg) / 39);
    }

    static double gaugeAreaM2(double awg) {
        double diameter = gaugeDiameterM(awg);
        return Math.PI / 4 * diameter * diameter;
    }

    static double resistanceOhm(double lengthM, double areaM2, double temperatureC) {
        return RESISTIVITY_OHM_M * lengthM / areaM2 * warm(temperatureC);
    }

    /** Resistance at a temperature over that at 20 °C. */
    static double warm(double temperatureC) {
        return 1 + COEFFICIENT_PER_K * (temperatureC - 20);
    }
}
