package linehold.simulator.circuit;

import linehold.controller.Range;
import linehold.simulator.build.ApplyElementSpec;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.electrics.PumpMotor;
import linehold.simulator.numeric.ArrowheadSystem;
import linehold.simulator.oil.Oil;

/**
 * The equations of the circuit: stored volume of the line (hub), electric pump speed and oil volume of each apply
 * element (leaves).
 *
 * <pre>dS/dt  = Q_int + Q_el − Q_lam − Q_orf − Q_reg − Σ Q_feed,k
 * Q_int  = D·n − S_int·p/μ      Q_lam = S_line·p/μ      Q_orf = (Cd·A)_leak·sq(p)
 * Q_reg  = G·max(0, p − p_set)  Q_feed,k = (Cd·A)_feed·sq(p − p_k)
 * dv_k/dt = Q_feed,k while commanded, −(Cd·A)_exh·sq(p_k) while not</pre>
 *
 * <p>Kinks that need an exact instant (piston touch, empty element, dry line) are modes, set from outside by
 * {@link Plant}; between two changes of mode the equations are smooth enough for the stepper.
 */
final class Circuit implements ArrowheadSystem {
    static final int STORED = 0;
    static final int PUMP_SPEED = 1;
    static final int FIRST_ELEMENT = 2;
    static final int STATES = FIRST_ELEMENT + Element.COUNT;

    static final int INTERNAL = 0;
    static final int ELECTRIC = 1;
    static final int LAMINAR_LEAK = 2;
    static final int ORIFICE_LEAK = 3;
    static final int REGULATOR = 4;
    static final int FLOWS = 5;

    /** Where the piston of an element is. */
    enum Piston {
        /** v = 0 and nothing flows. */
        EMPTY,
        /** Moving: 0 ≤ v ≤ v_stroke. */
        STROKING,
        /** Pressing: v ≥ v_stroke. */
        TOUCHED
    }

    /** Tolerable error in one step: absolute and relative, of pressure and of pump speed. */
    private final Tolerance tolerance;

    final LineStorage storage;
    final Oil oil;
    final PumpMotor motor;
    final PumpOutlet outlet;
    private final Orifice orifice;
    private final Build build;
    private final double fillLimitRadPerS;

    // Conditions, constant or linear in time within a step
    private double shaftAtS;
    private double shaftRadPerS;
    private double shaftSlope;
    private double busAtS;
    private double busOpenVolts;
    private double busSlope;
    private double regulatorSetPa;
    /** Stored volume at which the regulator opens. */
    double regulatorOpensM3;

    boolean contactClosed;
    boolean lineDry;
    final boolean[] commanded = new boolean[Element.COUNT];
    final Piston[] piston = new Piston[Element.COUNT];

    // Values that depend on oil only
    private double internalSlipM3PerSPa;
    private double lineLeakM3PerSPa;

    record Tolerance(double pressurePa, double relative, double pumpRadPerS, double strokePart) {
        static final Tolerance USUAL = new Tolerance(60, 1e-4, 0.05, 2e-5);
    }

    Circuit(Build build, double oilC, Tolerance tolerance) {
        this.build = build;
        this.tolerance = tolerance;
        storage = new LineStorage(build.line(), build.oil());
        oil = new Oil(build.oil(), oilC);
        motor = new PumpMotor(
                build.electricPump(), build.supply(), build.relay().contactResistanceOhm());
        orifice = new Orifice(build.line().linearBelowPa());
        outlet = new PumpOutlet(build.electricPump(), build.hose(), orifice);
        fillLimitRadPerS = build.internalPump().fillLimitRevPerS() * 2 * Math.PI;
        java.util.Arrays.fill(piston, Piston.EMPTY);
        setRange(Range.PARK);
        setOilC(oilC);
    }

    void setOilC(double oilC) {
        oil.setTemperatureC(oilC);
        double viscosity = oil.viscosityPaS();
        orifice.setDensity(oil.densityKgPerM3());
        outlet.setOil(viscosity, oil.densityKgPerM3());
        motor.setViscosityRatio(viscosity / build.hose().referenceViscosityPaS());
        internalSlipM3PerSPa = build.internalPump().slipM3() / viscosity;
        lineLeakM3PerSPa = build.line().laminarLeakM3() / viscosity;
    }

    void setRange(Range range) {
        regulatorSetPa = build.regulator().setPressurePa(range);
        regulatorOpensM3 = storage.storedM3(regulatorSetPa);
    }

    void setShaft(double atS, double radPerS, double slopeRadPerS2) {
        shaftAtS = atS;
        shaftRadPerS = radPerS;
        shaftSlope = slopeRadPerS2;
    }

    void setBus(double atS, double openVolts, double slopeVoltsPerS) {
        busAtS = atS;
        busOpenVolts = openVolts;
        busSlope = slopeVoltsPerS;
    }

    double shaftRadPerS(double timeS) {
        return shaftRadPerS + shaftSlope * (timeS - shaftAtS);
    }

    double busOpenVolts(double timeS) {
        return busOpenVolts + busSlope * (timeS - busAtS);
    }

    double pumpCurrentAmps(double timeS, double pumpRadPerS) {
        return motor.currentAmps(contactClosed, busOpenVolts(timeS), pumpRadPerS);
    }

    /** Piston pressure of an element, Pa, at its volume, m³. */
    double pistonPa(int k, double volumeM3) {
        ApplyElementSpec spec = build.elements().get(k);
        return piston[k] == Piston.TOUCHED
                ? spec.touchPressurePa() + (volumeM3 - spec.strokeVolumeM3()) / spec.complianceM3PerPa()
                : spec.returnPressurePa()
                        + (spec.touchPressurePa() - spec.returnPressurePa()) * volumeM3 / spec.strokeVolumeM3();
    }

    private double pistonPaPerM3(int k) {
        ApplyElementSpec spec = build.elements().get(k);
        return piston[k] == Piston.TOUCHED
                ? 1 / spec.complianceM3PerPa()
                : (spec.touchPressurePa() - spec.returnPressurePa()) / spec.strokeVolumeM3();
    }

    /** Flow of the internal pump, m³/s, signed: a shaft turning backward draws oil out of the line. */
    double internalFlow(double timeS, double linePa) {
        double displacementM3PerRad = build.internalPump().displacementM3PerRev() / (2 * Math.PI);
        return displacementM3PerRad * Math.min(shaftRadPerS(timeS), fillLimitRadPerS) - internalSlipM3PerSPa * linePa;
    }

    /** The flows that belong to no element, into q; their sum is the line's net flow without the feeds. */
    private double lineFlows(double timeS, double linePa, double pumpRadPerS, double[] q) {
        outlet.solve(pumpRadPerS, linePa);
        q[INTERNAL] = internalFlow(timeS, linePa);
        q[ELECTRIC] = outlet.flowM3PerS;
        q[LAMINAR_LEAK] = lineLeakM3PerSPa * linePa;
        q[ORIFICE_LEAK] = build.line().orificeLeakM2() * orifice.velocity(linePa);
        q[REGULATOR] = build.regulator().gainM3PerSPa() * Math.max(0, linePa - regulatorSetPa);
        return q[INTERNAL] + q[ELECTRIC] - q[LAMINAR_LEAK] - q[ORIFICE_LEAK] - q[REGULATOR];
    }

    @Override
    public void evaluate(double timeS, double[] y, double[] f, double[] q) {
        double linePa = storage.pressurePa(y[STORED]);
        double pumpRadPerS = Math.max(0, y[PUMP_SPEED]);
        double net = lineFlows(timeS, linePa, pumpRadPerS, q);
        double current = pumpCurrentAmps(timeS, pumpRadPerS);
        f[PUMP_SPEED] = motor.acceleration(current, outlet.outletPa, pumpRadPerS);
        for (int k = 0; k < Element.COUNT; k++) {
            double rate = elementRate(k, linePa, y[FIRST_ELEMENT + k]);
            f[FIRST_ELEMENT + k] = rate;
            if (commanded[k]) {
                net -= rate;
            }
        }
        f[STORED] = lineDry ? 0 : net;
    }

    private double elementRate(int k, double linePa, double volumeM3) {
        if (piston[k] == Piston.EMPTY) {
            return 0;
        }
        double pistonPa = pistonPa(k, volumeM3);
        return commanded[k]
                ? build.feed().feedAreaM2() * orifice.velocity(linePa - pistonPa)
                : -build.feed().exhaustAreaM2() * orifice.velocity(pistonPa);
    }

    /** What would flow into the line, m³/s, were it not dry. */
    double netFlow(double timeS, double[] y, double[] q) {
        double net = lineFlows(timeS, storage.pressurePa(y[STORED]), Math.max(0, y[PUMP_SPEED]), q);
        for (int k = 0; k < Element.COUNT; k++) {
            if (commanded[k]) {
                net -= elementRate(k, storage.pressurePa(y[STORED]), y[FIRST_ELEMENT + k]);
            }
        }
        return net;
    }

    @Override
    public void linearise(double timeS, double[] y, double[] f, double[] q, Linearisation out) {
        double linePa = storage.pressurePa(y[STORED]);
        double perM3 = 1 / storage.complianceM3PerPa(linePa);
        double pumpRadPerS = Math.max(0, y[PUMP_SPEED]);
        double net = lineFlows(timeS, linePa, pumpRadPerS, q);

        out.flowByHub[INTERNAL] = -internalSlipM3PerSPa * perM3;
        out.flowByHub[ELECTRIC] = outlet.flowByPressure * perM3;
        out.flowByHub[LAMINAR_LEAK] = lineLeakM3PerSPa * perM3;
        double leakArea = build.line().orificeLeakM2();
        out.flowByHub[ORIFICE_LEAK] = leakArea * orifice.slope(linePa, orifice.velocity(linePa)) * perM3;
        out.flowByHub[REGULATOR] = linePa > regulatorSetPa ? build.regulator().gainM3PerSPa() * perM3 : 0;
        out.flowByFirstLeaf[ELECTRIC] = outlet.flowBySpeed;
        double shaftBelowLimit = shaftRadPerS(timeS) < fillLimitRadPerS ? 1 : 0;
        out.flowByTime[INTERNAL] =
                shaftBelowLimit * build.internalPump().displacementM3PerRev() / (2 * Math.PI) * shaftSlope;

        double hubByHub = out.flowByHub[INTERNAL]
                + out.flowByHub[ELECTRIC]
                - out.flowByHub[LAMINAR_LEAK]
                - out.flowByHub[ORIFICE_LEAK]
                - out.flowByHub[REGULATOR];
        linearisePump(timeS, perM3, pumpRadPerS, f, out);
        for (int k = 0; k < Element.COUNT; k++) {
            double own = lineariseElement(k, linePa, perM3, y[FIRST_ELEMENT + k], f, out);
            hubByHub += own;
            if (commanded[k]) {
                net -= f[FIRST_ELEMENT + k];
            }
        }
        out.hubByHub = lineDry ? 0 : hubByHub;
        out.hubByLeaf[PUMP_SPEED] = lineDry ? 0 : outlet.flowBySpeed;
        out.byTime[STORED] = lineDry ? 0 : out.flowByTime[INTERNAL];
        f[STORED] = lineDry ? 0 : net;
        out.tolerable[STORED] = (tolerance.pressurePa + tolerance.relative * linePa) / perM3;
    }

    private void linearisePump(double timeS, double perM3, double pumpRadPerS, double[] f, Linearisation out) {
        double current = pumpCurrentAmps(timeS, pumpRadPerS);
        double byOutlet = motor.accelerationByOutlet();
        f[PUMP_SPEED] = motor.acceleration(current, outlet.outletPa, pumpRadPerS);
        out.leafByHub[PUMP_SPEED] = byOutlet * outlet.outletByPressure * perM3;
        out.leafByLeaf[PUMP_SPEED] = motor.accelerationBySpeed(current, pumpRadPerS) + byOutlet * outlet.outletBySpeed;
        out.byTime[PUMP_SPEED] = motor.accelerationByVolts(current) * busSlope;
        out.tolerable[PUMP_SPEED] = tolerance.pumpRadPerS + tolerance.relative * pumpRadPerS;
    }

    /** Derivatives of one element; returns its part of ∂f_0/∂y_0. */
    private double lineariseElement(
            int k, double linePa, double perM3, double volumeM3, double[] f, Linearisation out) {
        int i = FIRST_ELEMENT + k;
        double paPerM3 = pistonPaPerM3(k);
        out.tolerable[i] = piston[k] == Piston.TOUCHED
                ? (tolerance.pressurePa + tolerance.relative * linePa) / paPerM3
                : tolerance.strokePart * build.elements().get(k).strokeVolumeM3();
        if (piston[k] == Piston.EMPTY) {
            f[i] = 0;
            out.hubByLeaf[i] = 0;
            out.leafByHub[i] = 0;
            out.leafByLeaf[i] = 0;
            return 0;
        }
        double pistonPa = pistonPa(k, volumeM3);
        if (!commanded[k]) {
            double area = build.feed().exhaustAreaM2();
            double velocity = orifice.velocity(pistonPa);
            f[i] = -area * velocity;
            out.hubByLeaf[i] = 0;
            out.leafByHub[i] = 0;
            out.leafByLeaf[i] = -area * orifice.slope(pistonPa, velocity) * paPerM3;
            return 0;
        }
        double area = build.feed().feedAreaM2();
        double velocity = orifice.velocity(linePa - pistonPa);
        double slope = area * orifice.slope(linePa - pistonPa, velocity);
        f[i] = area * velocity;
        out.leafByHub[i] = slope * perM3;
        out.leafByLeaf[i] = -slope * paPerM3;
        out.hubByLeaf[i] = lineDry ? 0 : slope * paPerM3;
        return -slope * perM3;
    }
}
