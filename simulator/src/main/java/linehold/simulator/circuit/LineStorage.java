package linehold.simulator.circuit;

import linehold.simulator.build.LineSpec;
import linehold.simulator.build.OilSpec;

/**
 * How much oil the line has stored at a pressure, and back.
 *
 * <pre>S(p) = (V/β_oil + C_struct)·p + V·x0·p/(p + p_atm) + [P &gt; P0]·V0·(1 − P0/P)     P = p + p_atm</pre>
 *
 * <p>Its slope is the compliance {@code C(p) = V/β(p) + C_struct + C_acc(p)} with {@code 1/β = 1/β_oil + x0·p_atm/P²}
 * (Merritt, Hydraulic Control Systems, 1967, ch. 2) and {@code C_acc = V0·P0/P²} (isothermal gas). S is the state of the
 * integrator, so that volume is conserved exactly and p ≥ 0 is S ≥ 0; p is the root of a quadratic.
 */
public final class LineStorage {
    /** Standard atmosphere, ISO 2533. */
    public static final double ATMOSPHERE_PA = 101_325;

    private final double linearM3PerPa;
    private final double airM3;
    private final double prechargePa;
    private final double gasM3;
    /** Stored volume at which the accumulator starts to take oil. */
    final double gasFromM3;

    public LineStorage(LineSpec line, OilSpec oil) {
        this(line, oil, 1);
    }

    /** @param airFactor entrained air over that of the build file */
    LineStorage(LineSpec line, OilSpec oil, double airFactor) {
        linearM3PerPa = line.volumeM3() / oil.bulkModulusPa() + line.structureComplianceM3PerPa();
        airM3 = line.volumeM3() * Math.min(1, airFactor * oil.entrainedAir());
        LineSpec.AccumulatorSpec gas = line.accumulator();
        prechargePa = gas == null ? Double.POSITIVE_INFINITY : Math.max(gas.prechargePa(), ATMOSPHERE_PA);
        gasM3 = gas == null ? 0 : gas.gasVolumeM3();
        gasFromM3 = gas == null ? Double.POSITIVE_INFINITY : storedM3(prechargePa - ATMOSPHERE_PA);
    }

    /** Stored volume S, m³, at a pressure, Pa gauge, not negative. */
    public double storedM3(double pressurePa) {
        double absolutePa = pressurePa + ATMOSPHERE_PA;
        double stored = linearM3PerPa * pressurePa + airM3 * pressurePa / absolutePa;
        return absolutePa > prechargePa ? stored + gasM3 * (1 - prechargePa / absolutePa) : stored;
    }

    /** Line pressure p, Pa gauge, at a stored volume, m³; 0 for a volume at or below 0. */
    public double pressurePa(double storedM3) {
        if (storedM3 <= 0) {
            return 0;
        }
        // S = L·(P − p_atm) + A − G/P with A, G from air and gas, so  L·P² + (A − L·p_atm − S)·P − G = 0
        boolean gasTakesOil = storedM3 > gasFromM3;
        double all = gasTakesOil ? airM3 + gasM3 : airM3;
        double g = gasTakesOil ? airM3 * ATMOSPHERE_PA + gasM3 * prechargePa : airM3 * ATMOSPHERE_PA;
        double half = 0.5 * (all - linearM3PerPa * ATMOSPHERE_PA - storedM3);
        double root = Math.sqrt(half * half + linearM3PerPa * g);
        // Two forms of the same root: each is used where it adds, never where it cancels.
        double absolutePa = half > 0 ? g / (half + root) : (root - half) / linearM3PerPa;
        return Math.max(0, absolutePa - ATMOSPHERE_PA);
    }

    /** Compliance dS/dp, m³/Pa, at a pressure, Pa gauge. */
    public double complianceM3PerPa(double pressurePa) {
        double absolutePa = pressurePa + ATMOSPHERE_PA;
        double gas = absolutePa > prechargePa ? gasM3 * prechargePa : 0;
        return linearM3PerPa + (airM3 * ATMOSPHERE_PA + gas) / (absolutePa * absolutePa);
    }
}
