package linehold.simulator.certify;

import static linehold.simulator.certificate.Parameter.*;

import linehold.simulator.certificate.Bounds;
import linehold.simulator.certificate.Certificate.Basis;
import linehold.simulator.certificate.Parameter;
import linehold.simulator.oil.WaltherViscosity;

/**
 * The lower system of docs/certificate.md in one slice of oil temperature: each right-hand side with every parameter at the
 * end of its range that makes it least, less a small slack, in ordinary floating point. What it gives is a proposal; only
 * the checker's word counts.
 */
final class LowerSystem {
    private static final double ATMOSPHERE_PA = 101_325;
    /** Share of the flows, of the torques and of the feed by which the slopes stay below what the equations give. */
    private static final double SLACK = 2e-4;
    /** The same where nearly nothing flows into the element, Pa. */
    private static final double SLACK_PA = 0.5;

    private final double internalLow;
    private final double internalHigh;
    private final double fillLimit;
    private final double laminarLeak;
    private final double leakArea;
    private final double root2PerLeastDensity;
    private final double root2PerMostDensity;
    private final double linearLow;
    private final double linearHigh;
    private final double regulatorGain;
    private final double regulatorSetPa;
    private final Bounds feedArea;
    private final double complianceLow;
    private final double complianceHigh;
    private final double airLow;
    private final double airHigh;
    private final Bounds prechargePa;
    private final Bounds gasM3;
    private final Bounds elementCompliance;
    private final double displacementLow;
    private final double displacementHigh;
    private final double slipHigh;
    private final double slipLow;
    private final double crackPa;
    private final double hoseLaminar;
    private final double hoseTurbulent;
    private final Bounds reliefPa;
    private final Bounds motorConstant;
    private final double ohm;
    private final double volts;
    private final Bounds inertia;
    private final double coulombNm;
    private final double viscousNmS;

    LowerSystem(Basis basis, double coldC, double hotC) {
        Bounds rho15 = basis.range(OIL_DENSITY_15_KG_PER_M3);
        Bounds expansion = basis.range(OIL_EXPANSION_PER_K);
        double densityLow = rho15.low() * (1 - Math.max(expansion.high() * (hotC - 15), expansion.low() * (hotC - 15)));
        double densityHigh =
                rho15.high() * (1 - Math.min(expansion.high() * (coldC - 15), expansion.low() * (coldC - 15)));
        double viscosityLow = extremeKinematic(basis, hotC, false) * densityLow;
        double viscosityHigh = extremeKinematic(basis, coldC, true) * densityHigh;

        internalLow = basis.range(INTERNAL_DISPLACEMENT_M3_PER_REV).low() / (2 * Math.PI);
        internalHigh = basis.range(INTERNAL_DISPLACEMENT_M3_PER_REV).high() / (2 * Math.PI);
        fillLimit = basis.range(INTERNAL_FILL_LIMIT_REV_PER_S).low() * 2 * Math.PI;
        laminarLeak = (high(basis, INTERNAL_SLIP_M3) + high(basis, LINE_LAMINAR_LEAK_M3)) / viscosityLow;
        leakArea = high(basis, LINE_ORIFICE_LEAK_M2);
        root2PerLeastDensity = Math.sqrt(2 / densityLow);
        root2PerMostDensity = Math.sqrt(2 / densityHigh);
        linearLow = basis.range(ORIFICE_LINEAR_BELOW_PA).low();
        linearHigh = high(basis, ORIFICE_LINEAR_BELOW_PA);
        regulatorGain = high(basis, REGULATOR_GAIN_M3_PER_S_PA);
        regulatorSetPa = basis.range(REGULATOR_SET_PA).low();
        feedArea = basis.range(FEED_AREA_M2);
        Bounds volume = basis.range(LINE_VOLUME_M3);
        Bounds structure = basis.range(LINE_STRUCTURE_COMPLIANCE_M3_PER_PA);
        Bounds bulk = basis.range(OIL_BULK_MODULUS_PA);
        Bounds air = basis.range(OIL_ENTRAINED_AIR);
        complianceLow = volume.low() / bulk.high() + structure.low();
        complianceHigh = volume.high() / bulk.low() + structure.high();
        airLow = volume.low() * Math.min(1, air.low());
        airHigh = volume.high() * Math.min(1, air.high());
        prechargePa = basis.range(ACCUMULATOR_PRECHARGE_PA);
        gasM3 = basis.range(ACCUMULATOR_GAS_M3);
        elementCompliance = basis.range(ELEMENT_COMPLIANCE_M3_PER_PA);
        displacementLow = basis.range(ELECTRIC_DISPLACEMENT_M3_PER_REV).low() / (2 * Math.PI);
        displacementHigh = basis.range(ELECTRIC_DISPLACEMENT_M3_PER_REV).high() / (2 * Math.PI);
        slipHigh = high(basis, ELECTRIC_SLIP_M3) / viscosityLow;
        slipLow = basis.range(ELECTRIC_SLIP_M3).low() / viscosityHigh;
        crackPa = high(basis, HOSE_CRACK_PA);
        double thickness =
                viscosityHigh / basis.range(HOSE_REFERENCE_VISCOSITY_PA_S).low();
        hoseLaminar = high(basis, HOSE_LAMINAR_PA_S_PER_M3) * thickness;
        hoseTurbulent = high(basis, HOSE_TURBULENT_PA_S2_PER_M6)
                * densityHigh
                / basis.range(HOSE_REFERENCE_DENSITY_KG_PER_M3).low();
        reliefPa = basis.range(RELIEF_PA);
        motorConstant = basis.range(MOTOR_CONSTANT_V_S_PER_RAD);
        ohm = high(basis, MOTOR_ARMATURE_OHM)
                + high(basis, WIRE_OHM)
                + high(basis, CONTACT_OHM)
                + high(basis, BUS_SOURCE_OHM);
        volts = basis.range(BUS_OPEN_V).low();
        inertia = basis.range(MOTOR_INERTIA_KG_M2);
        coulombNm = high(basis, MOTOR_COULOMB_NM);
        viscousNmS = high(basis, MOTOR_VISCOUS_NM_S) * thickness;
    }

    private static double high(Basis basis, Parameter parameter) {
        return basis.range(parameter).high();
    }

    /** ν at a temperature, at the ends of both measured points that make it most or least, m²/s. */
    private static double extremeKinematic(Basis basis, double oilC, boolean most) {
        Bounds at40 = basis.range(OIL_VISCOSITY_40_M2_PER_S);
        Bounds at100 = basis.range(OIL_VISCOSITY_100_M2_PER_S);
        double found = Double.NaN;
        for (double first : new double[] {at40.low(), at40.high()}) {
            for (double second : new double[] {at100.low(), at100.high()}) {
                double value = new WaltherViscosity(40, first, 100, second).kinematicM2PerS(oilC);
                found = Double.isNaN(found) ? value : most ? Math.max(found, value) : Math.min(found, value);
            }
        }
        return found;
    }

    /** Least p', Pa/s, at line pressure p, p − q = d, pump speed w, shaft speed n. */
    double lineSlope(double p, double d, double w, double n) {
        double shaft = Math.min(n, fillLimit);
        double in = (shaft >= 0 ? internalLow : internalHigh) * shaft + electricFlow(w, p);
        double out = laminarLeak * p
                + leakArea * orifice(p, true)
                + regulatorGain * Math.max(0, p - regulatorSetPa)
                + feed(d, false);
        double net = in - out - SLACK * (Math.abs(in) + Math.abs(out));
        double absolute = p + ATMOSPHERE_PA;
        double square = absolute * absolute;
        double compliance = net < 0
                ? complianceLow
                        + (airLow * ATMOSPHERE_PA
                                        + (absolute > prechargePa.high() ? gasM3.low() * prechargePa.low() : 0))
                                / square
                : complianceHigh
                        + (airHigh * ATMOSPHERE_PA
                                        + (absolute > prechargePa.low() ? gasM3.high() * prechargePa.high() : 0))
                                / square;
        return net / compliance;
    }

    /** Least q', Pa/s. */
    double pistonSlope(double d) {
        double flow = feed(d - SLACK_PA, true);
        return (flow - SLACK * Math.abs(flow)) / (flow < 0 ? elementCompliance.low() : elementCompliance.high());
    }

    /** By how much the slope of the piston pressure is less than the equations give, at least, Pa/s. */
    double pistonSlack() {
        return (feed(0, true) - feed(-SLACK_PA, true)) / elementCompliance.high();
    }

    /** The least feed into the element (for q), or the most (for p), m³/s. */
    private double feed(double d, boolean least) {
        double area = d > 0 == least ? feedArea.low() : feedArea.high();
        return area * orifice(d, !least);
    }

    /** sq(x), the most or the least. */
    private double orifice(double x, boolean most) {
        boolean large = x > 0 == most;
        double root2 = large ? root2PerLeastDensity : root2PerMostDensity;
        double linear = large ? linearLow : linearHigh;
        double magnitude = Math.abs(x);
        if (magnitude >= linear) {
            return Math.copySign(root2 * Math.sqrt(magnitude), x);
        }
        double part = x / linear;
        return x * root2 / Math.sqrt(linear) * (1.25 - 0.25 * part * part);
    }

    private double electricFlow(double w, double p) {
        double behindValve = p + crackPa;
        double head = displacementLow * w - slipHigh * behindValve;
        double reliefHead = reliefPa.low() - behindValve;
        if (head <= 0 || reliefHead <= 0) {
            return 0;
        }
        return Math.min(
                root(slipHigh * hoseTurbulent, 1 + slipHigh * hoseLaminar, head),
                root(hoseTurbulent, hoseLaminar, reliefHead));
    }

    /** The positive root of a·Q² + b·Q = c. */
    private static double root(double a, double b, double c) {
        return 2 * c / (b + Math.sqrt(b * b + 4 * a * c));
    }

    /** Least w', rad/s². */
    double pumpSlope(double w, boolean contactClosed) {
        double drive = contactClosed ? Math.min(drive(w, motorConstant.low()), drive(w, motorConstant.high())) : 0;
        double load = displacementHigh * Math.min(reliefPa.high(), displacementHigh * w / slipLow)
                + coulombNm * Math.min(1, w)
                + viscousNmS * w;
        double torque = drive - load - SLACK * (drive + load);
        return torque / (torque < 0 ? inertia.low() : inertia.high());
    }

    private double drive(double w, double constant) {
        return constant * Math.max(0, (volts - constant * w) / ohm);
    }
}
