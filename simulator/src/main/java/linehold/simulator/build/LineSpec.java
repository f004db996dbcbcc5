package linehold.simulator.build;

/**
 * The pressure line: what stores oil and what loses it.
 *
 * @param volumeM3 oil volume under line pressure, m³
 * @param structureComplianceM3PerPa give of hoses and castings, m³/Pa
 * @param laminarLeakM3 laminar leakage coefficient S: Q = S·p/μ, m³
 * @param orificeLeakM2 orifice leakage Cd·A, m²
 * @param linearBelowPa pressure difference below which every orifice is linearised, Pa
 * @param accumulator gas accumulator on the line; null where none is fitted
 */
public record LineSpec(
        double volumeM3,
        double structureComplianceM3PerPa,
        double laminarLeakM3,
        double orificeLeakM2,
        double linearBelowPa,
        AccumulatorSpec accumulator) {

    /**
     * @param prechargePa gas pressure with no oil in it, Pa ABSOLUTE
     * @param gasVolumeM3 gas volume at precharge, m³
     */
    public record AccumulatorSpec(double prechargePa, double gasVolumeM3) {}
}
