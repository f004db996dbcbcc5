package linehold.simulator.checker;

import static linehold.simulator.certificate.Parameter.*;

import linehold.simulator.certificate.Certificate.Basis;

/**
 * The right-hand sides of the lower system, each bounded from below over a box of states and over every parameter within
 * its range. Line pressure p, piston pressure q, pump speed w, shaft speed n.
 *
 * <pre>C(p)·p' = D_int·min(n, n_fill) − (S_int + S_line)·p/μ − (Cd·A)_leak·sq(p) − G·max(0, p − p_set)
 *           + Q_el(w, p) − (Cd·A)_feed·sq(p − q)
 * C_k·q'   = (Cd·A)_feed·sq(p − q)
 * J·w'     ≥ K·i − D_el·min(p_relief, D_el·w·μ/S_el) − T_c·min(1, w) − b·(μ/μ_ref)·w</pre>
 *
 * <p>They are written anew from docs/model.md, on purpose: nothing here comes from the simulator.
 */
final class Equations {
    private static final Interval ATMOSPHERE_PA = Interval.of(101_325);
    private static final Interval TWO_PI = new Interval(2 * Math.PI, Math.nextUp(2 * Math.PI));
    private static final Interval ONE = Interval.of(1);

    private final Interval lineVolume;
    private final Interval constantCompliance;
    private final Interval airVolume;
    private final Interval prechargePa;
    private final Interval gasVolume;
    private final Interval laminarLeak;
    private final Interval leakArea;
    private final Interval linearBelowPa;
    private final Interval root2PerDensity;
    private final Interval internalDisplacement;
    private final Interval fillLimit;
    private final Interval regulatorGain;
    private final Interval regulatorSetPa;
    private final Interval feedArea;
    private final Interval elementCompliance;
    private final Interval displacementPerRad;
    private final Interval pumpSlip;
    private final Interval crackPa;
    private final Interval hoseLaminar;
    private final Interval hoseTurbulent;
    private final Interval reliefPa;
    private final Interval motorConstant;
    private final Interval ohm;
    private final Interval busVolts;
    private final Interval inertia;
    private final Interval coulombNm;
    private final Interval viscousNmS;

    Equations(Basis basis, OilRange oil) {
        Ranges r = new Ranges(basis);
        Interval viscosity = oil.viscosityPaS();
        lineVolume = r.of(LINE_VOLUME_M3);
        constantCompliance = lineVolume.over(r.of(OIL_BULK_MODULUS_PA)).plus(r.of(LINE_STRUCTURE_COMPLIANCE_M3_PER_PA));
        airVolume = lineVolume.times(r.of(OIL_ENTRAINED_AIR).min(ONE));
        prechargePa = r.of(ACCUMULATOR_PRECHARGE_PA).max(ATMOSPHERE_PA);
        gasVolume = r.of(ACCUMULATOR_GAS_M3);
        laminarLeak = r.of(INTERNAL_SLIP_M3).plus(r.of(LINE_LAMINAR_LEAK_M3)).over(viscosity);
        leakArea = r.of(LINE_ORIFICE_LEAK_M2);
        linearBelowPa = r.of(ORIFICE_LINEAR_BELOW_PA);
        root2PerDensity = Interval.of(2).over(oil.densityKgPerM3()).root();
        internalDisplacement = r.of(INTERNAL_DISPLACEMENT_M3_PER_REV).over(TWO_PI);
        fillLimit = r.of(INTERNAL_FILL_LIMIT_REV_PER_S).times(TWO_PI);
        regulatorGain = r.of(REGULATOR_GAIN_M3_PER_S_PA);
        regulatorSetPa = r.of(REGULATOR_SET_PA);
        feedArea = r.of(FEED_AREA_M2);
        elementCompliance = r.of(ELEMENT_COMPLIANCE_M3_PER_PA);
        displacementPerRad = r.of(ELECTRIC_DISPLACEMENT_M3_PER_REV).over(TWO_PI);
        pumpSlip = r.of(ELECTRIC_SLIP_M3).over(viscosity);
        crackPa = r.of(HOSE_CRACK_PA);
        Interval thickness = viscosity.over(r.of(HOSE_REFERENCE_VISCOSITY_PA_S));
        hoseLaminar = r.of(HOSE_LAMINAR_PA_S_PER_M3).times(thickness);
        hoseTurbulent = r.of(HOSE_TURBULENT_PA_S2_PER_M6)
                .times(oil.densityKgPerM3().over(r.of(HOSE_REFERENCE_DENSITY_KG_PER_M3)));
        reliefPa = r.of(RELIEF_PA);
        motorConstant = r.of(MOTOR_CONSTANT_V_S_PER_RAD);
        ohm = r.of(MOTOR_ARMATURE_OHM)
                .plus(r.of(WIRE_OHM))
                .plus(r.of(CONTACT_OHM))
                .plus(r.of(BUS_SOURCE_OHM));
        busVolts = r.of(BUS_OPEN_V);
        inertia = r.of(MOTOR_INERTIA_KG_M2);
        coulombNm = r.of(MOTOR_COULOMB_NM);
        viscousNmS = r.of(MOTOR_VISCOUS_NM_S).times(thickness);
    }

    /**
     * Least p', Pa/s.
     *
     * @param p line pressure, Pa
     * @param d line pressure less piston pressure, Pa
     * @param w pump speed, rad/s, not negative
     * @param n shaft speed, rad/s
     */
    double leastLineSlope(Interval p, Interval d, Interval w, Interval n) {
        Interval flow = internalDisplacement
                .times(n.min(fillLimit))
                .minus(laminarLeak.times(p))
                .minus(leakArea.times(orifice(p)))
                .minus(regulatorGain.times(p.minus(regulatorSetPa).max(Interval.ZERO)))
                .minus(feedArea.times(orifice(d)));
        Interval least = Interval.of(flow.low()).plus(Interval.of(leastElectricFlow(w.low(), p.high())));
        return Interval.of(least.low()).over(compliance(p)).low();
    }

    /** Least q', Pa/s, at a line pressure less piston pressure. */
    double leastPistonSlope(Interval d) {
        return feedArea.times(orifice(d)).over(elementCompliance).low();
    }

    /** Least w', rad/s². Over K it is K·(V − K·w)/R: concave, so that an end of K's range is the least. */
    double leastPumpSlope(Interval w, boolean contactClosed) {
        Interval drive = Interval.ZERO;
        if (contactClosed) {
            drive = driveNm(w, motorConstant.low()).min(driveNm(w, motorConstant.high()));
        }
        Interval deadHeadPa = displacementPerRad.times(w).over(pumpSlip);
        Interval load = displacementPerRad.times(reliefPa.min(deadHeadPa));
        Interval torque = drive.minus(load).minus(coulombNm.times(w.min(ONE))).minus(viscousNmS.times(w));
        return torque.over(inertia).low();
    }

    /** i = max(0, (V − K·w)/R), torque K·i. */
    private Interval driveNm(Interval w, double constant) {
        Interval k = Interval.of(constant);
        return k.times(busVolts.minus(k.times(w)).over(ohm).max(Interval.ZERO));
    }

    /** C(p) = V/β + C_struct + V·x0·p_atm/P² + [P > P0]·V0·P0/P²,  P = p + p_atm. */
    private Interval compliance(Interval p) {
        Interval absolute = p.plus(ATMOSPHERE_PA);
        Interval square = absolute.times(absolute);
        Interval sum = constantCompliance.plus(airVolume.times(ATMOSPHERE_PA).over(square));
        Interval gas = gasVolume.times(prechargePa).over(square);
        if (absolute.low() > prechargePa.high()) {
            return sum.plus(gas);
        }
        return absolute.high() <= prechargePa.low() ? sum : sum.plus(gas.hull(Interval.ZERO));
    }

    /**
     * Least flow of the electric pump into the line, m³/s. With s = S_el/μ the flow is the root of
     *
     * <pre>g(Q) = Q − D·w + s·(p + p_crack + R_lam·Q + R_turb·Q²)</pre>
     *
     * or, at the relief, of R_lam·Q + R_turb·Q² = p_relief − p − p_crack, whichever is less; never below 0. g grows with Q,
     * s, p, p_crack, R_lam and R_turb and falls with D and w, so that the least root lies at one corner of the box.
     */
    private double leastElectricFlow(double w, double p) {
        Interval s = Interval.of(pumpSlip.high());
        Interval laminar = Interval.of(hoseLaminar.high());
        Interval turbulent = Interval.of(hoseTurbulent.high());
        Interval behindValve = Interval.of(p).plus(Interval.of(crackPa.high()));
        Interval head = Interval.of(displacementPerRad.low()).times(w).minus(s.times(behindValve));
        Interval reliefHead = Interval.of(reliefPa.low()).minus(behindValve);
        if (head.low() <= 0 || reliefHead.low() <= 0) {
            return 0;
        }
        double open = leastRoot(s.times(turbulent), ONE.plus(s.times(laminar)), head);
        double relieved = leastRoot(turbulent, laminar, reliefHead);
        return Math.max(0, Math.min(open, relieved));
    }

    /** Lower end of the positive root of a·Q² + b·Q = c. */
    private static double leastRoot(Interval a, Interval b, Interval c) {
        Interval discriminant = b.times(b).plus(a.times(c).times(4));
        return c.times(2).over(b.plus(discriminant.root())).low();
    }

    /** sq(x) over an interval: it grows with x. */
    private Interval orifice(Interval x) {
        return new Interval(orificeAt(x.low()).low(), orificeAt(x.high()).high());
    }

    /**
     * sq(x) = sign(x)·√(2|x|/ρ), and x·√(2/(ρ·L))·(1.25 − 0.25·(x/L)²) where |x| is below L. Its magnitude falls with L, so
     * that the ends lie at the ends of L's range.
     */
    private Interval orificeAt(double x) {
        return orificeAt(x, linearBelowPa.low()).hull(orificeAt(x, linearBelowPa.high()));
    }

    private Interval orificeAt(double x, double linearBelow) {
        Interval exact = Interval.of(x);
        if (Math.abs(x) >= linearBelow) {
            Interval magnitude = root2PerDensity.times(Interval.of(Math.abs(x)).root());
            return x >= 0 ? magnitude : Interval.ZERO.minus(magnitude);
        }
        Interval limit = Interval.of(linearBelow);
        Interval part = exact.over(limit);
        Interval shape = Interval.of(1.25).minus(part.times(part).times(0.25));
        return exact.times(root2PerDensity.over(limit.root())).times(shape);
    }
}
