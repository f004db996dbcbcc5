package linehold.simulator.checker;

import linehold.simulator.certificate.Certificate.Basis;
import linehold.simulator.certificate.Parameter;

/**
 * What the oil can be in a slice of temperature.
 *
 * <pre>log10(log10(ν + 0.7)) = A − B·log10(T)     ν in mm²/s, T in K     (ASTM D341)
 * ρ = ρ15·(1 − α·(T − 15 °C))     μ = ν·ρ</pre>
 *
 * @param viscosityPaS dynamic viscosity μ, Pa·s
 * @param densityKgPerM3 density ρ, kg/m³
 */
record OilRange(Interval viscosityPaS, Interval densityKgPerM3) {
    private static final double KELVIN = 273.15;
    private static final Interval OFFSET_MM2_PER_S = Interval.of(0.7);

    static OilRange of(Basis basis, double coldC, double hotC) {
        Ranges ranges = new Ranges(basis);
        // ν falls as the oil warms, so that its ends lie at the ends of the slice.
        Interval kinematic = kinematicM2PerS(ranges, coldC).hull(kinematicM2PerS(ranges, hotC));
        Interval warmth = new Interval(coldC, hotC).minus(Interval.of(15));
        Interval density = ranges.of(Parameter.OIL_DENSITY_15_KG_PER_M3)
                .times(Interval.of(1)
                        .minus(ranges.of(Parameter.OIL_EXPANSION_PER_K).times(warmth)));
        return new OilRange(kinematic.times(density), density);
    }

    /** Between the two measured points LL = LL1·(1 − λ) + LL2·λ, λ = (log T − log T1)/(log T2 − log T1). */
    private static Interval kinematicM2PerS(Ranges ranges, double oilC) {
        Interval log1 = Interval.of(40 + KELVIN).log10();
        Interval log2 = Interval.of(100 + KELVIN).log10();
        Interval log = Interval.of(oilC).plus(Interval.of(KELVIN)).log10();
        Interval share = log.minus(log1).over(log2.minus(log1));
        Interval first = doubleLog(ranges.of(Parameter.OIL_VISCOSITY_40_M2_PER_S));
        Interval second = doubleLog(ranges.of(Parameter.OIL_VISCOSITY_100_M2_PER_S));
        Interval doubleLog = first.times(Interval.of(1).minus(share)).plus(second.times(share));
        return doubleLog.pow10().pow10().minus(OFFSET_MM2_PER_S).times(1e-6);
    }

    private static Interval doubleLog(Interval viscosityM2PerS) {
        return viscosityM2PerS.times(1e6).plus(OFFSET_MM2_PER_S).log10().log10();
    }
}
