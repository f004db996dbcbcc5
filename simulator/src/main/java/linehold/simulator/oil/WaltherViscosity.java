package linehold.simulator.oil;

/**
 * Kinematic viscosity against temperature, Ubbelohde-Walther form of ASTM D341:
 *
 * <pre>log10(log10(ν + 0.7)) = A − B·log10(T)    ν in mm²/s, T in K</pre>
 *
 * <p>Valid where ν is 2 mm²/s or more; below the pour point the value is an extrapolation (see {@link #isExtrapolated}).
 */
public final class WaltherViscosity {
    private static final double KELVIN = 273.15;
    private static final double OFFSET_MM2_PER_S = 0.7;
    /** Below this the 0.7 form loses its validity (ASTM D341). */
    public static final double LOWEST_VALID_MM2_PER_S = 2.0;

    private final double a;
    private final double b;

    /**
     * Through two measured points.
     *
     * @param viscosity1M2PerS kinematic viscosity at {@code temperature1C}, m²/s
     * @param viscosity2M2PerS kinematic viscosity at {@code temperature2C}, m²/s
     */
    public WaltherViscosity(
            double temperature1C, double viscosity1M2PerS, double temperature2C, double viscosity2M2PerS) {
        // B = (LL1 − LL2)/(log T2 − log T1),  A = LL1 + B·log T1,  LL = log10(log10(ν + 0.7))
        double doubleLog1 = doubleLog(viscosity1M2PerS * 1e6);
        double doubleLog2 = doubleLog(viscosity2M2PerS * 1e6);
        double log1 = StrictMath.log10(temperature1C + KELVIN);
        double log2 = StrictMath.log10(temperature2C + KELVIN);
        b = (doubleLog1 - doubleLog2) / (log2 - log1);
        a = doubleLog1 + b * log1;
    }

    public double a() {
        return a;
    }

    public double b() {
        return b;
    }

    /** Kinematic viscosity, m²/s. */
    public double kinematicM2PerS(double temperatureC) {
        // ν = 10^(10^(A − B·log10 T)) − 0.7
        double inner = a - b * StrictMath.log10(temperatureC + KELVIN);
        return (StrictMath.pow(10, StrictMath.pow(10, inner)) - OFFSET_MM2_PER_S) * 1e-6;
    }

    /** Whether the value at this temperature lies outside what the equation was made for. */
    public boolean isExtrapolated(double temperatureC, double pourPointC) {
        return temperatureC < pourPointC || kinematicM2PerS(temperatureC) * 1e6 < LOWEST_VALID_MM2_PER_S;
    }

    private static double doubleLog(double viscosityMm2PerS) {
        return StrictMath.log10(StrictMath.log10(viscosityMm2PerS + OFFSET_MM2_PER_S));
    }
}
