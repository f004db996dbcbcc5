package linehold.simulator.circuit;

import linehold.controller.Range;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.build.LineSpec;
import linehold.simulator.build.OilSpec;
import linehold.simulator.build.RegulatorSpec;
import linehold.simulator.circuit.ApplyElement.Piston;
import linehold.simulator.electrics.PumpMotor;
import linehold.simulator.numeric.ArrowheadSystem;
import linehold.simulator.oil.Oil;

/**
 * The equations of the circuit: stored volume of the line (hub), electric pump speed and oil volume of each apply
 * element (leaves). docs/model.md states them all.
 *
 * <pre>dS/dt  = Q_int + Q_el − Q_lam − Q_orf − Q_reg − Σ Q_feed,k
 * Q_int  = D·min(n, n_fill) − S_int·p/μ      Q_lam = S_line·p/μ      Q_orf = (Cd·A)_leak·sq(p)
 * Q_reg  = G·max(0, p − p_set)</pre>
 *
 * <p>Changes of form that need an exact instant (piston touch, empty element, dry line) are modes, set from outside by
 * {@link Kinks}; between two changes of mode the equations are smooth enough for the stepper.
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

    /** A pump that seizes stops with this time constant, s: at once, but smoothly. */
    private static final double STALLING_S = 2e-3;

    /** Tolerable error in one step: of pressures and pump speed, absolute and relative, and of a stroke, relative. */
    record Tolerance(double pressurePa, double relative, double pumpRadPerS, double strokePart) {
        static final Tolerance USUAL = new Tolerance(60, 1e-4, 0.05, 2e-5);
    }

    LineStorage storage;
    final Oil oil;
    final PumpMotor motor;
    final PumpOutlet outlet;
    final ApplyElement[] elements = new ApplyElement[Element.COUNT];

    final Condition condition = new Condition();

    private final Tolerance tolerance;
    private final LineSpec line;
    private final OilSpec oilSpec;
    private final Orifice orifice;
    private final RegulatorSpec regulator;
    private final double displacementM3PerRad;
    private final double internalSlipM3;
    private final double fillLimitRadPerS;
    private final double laminarLeakM3;
    private double leakAreaM2;
    private final double regulatorGainM3PerSPa;
    private final double referenceViscosityPaS;

    // Conditions, constant or linear in time within a step
    private double shaftAtS;
    private double shaftRadPerS;
    private double shaftSlope;
    private double busAtS;
    private double busOpenVolts;
    private double busSlope;
    private Range range = Range.PARK;
    private double regulatorSetPa;
    /** Stored volume at which the regulator opens. */
    double regulatorOpensM3;

    boolean contactClosed;
    boolean lineDry;

    // Values that depend on oil only
    private double internalSlipM3PerSPa;
    private double lineLeakM3PerSPa;

    Circuit(Build build, double oilC, Tolerance tolerance) {
        this.tolerance = tolerance;
        line = build.line();
        oilSpec = build.oil();
        storage = new LineStorage(line, oilSpec);
        oil = new Oil(build.oil(), oilC);
        motor = new PumpMotor(
                build.electricPump(), build.supply(), build.relay().contactResistanceOhm());
        orifice = new Orifice(build.line().linearBelowPa());
        outlet = new PumpOutlet(build.electricPump(), build.hose(), orifice);
        for (int k = 0; k < Element.COUNT; k++) {
            elements[k] = new ApplyElement(build.elements().get(k), build.feed(), orifice, storage);
        }
        regulator = build.regulator();
        regulatorGainM3PerSPa = regulator.gainM3PerSPa();
        displacementM3PerRad = build.internalPump().displacementM3PerRev() / (2 * Math.PI);
        internalSlipM3 = build.internalPump().slipM3();
        fillLimitRadPerS = build.internalPump().fillLimitRevPerS() * 2 * Math.PI;
        laminarLeakM3 = build.line().laminarLeakM3();
        leakAreaM2 = build.line().orificeLeakM2();
        referenceViscosityPaS = build.hose().referenceViscosityPaS();
        setRange(Range.PARK);
        setOilC(oilC);
    }

    void setOilC(double oilC) {
        oil.setTemperatureC(oilC);
        setCoefficients();
    }

    /** Takes over what has changed in {@link #condition}; the line's storage is another one afterwards. */
    void setCondition() {
        storage = new LineStorage(line, oilSpec, condition.airFactor);
        for (int k = 0; k < Element.COUNT; k++) {
            elements[k].sealLeakM2 = condition.sealLeakM2[k];
            elements[k].setLine(storage);
        }
        leakAreaM2 = line.orificeLeakM2() + condition.lineLeakM2;
        motor.setDelivery(condition.electricDelivery);
        setRegulator();
        setCoefficients();
    }

    private void setCoefficients() {
        double viscosity = oil.viscosityPaS();
        orifice.setDensity(oil.densityKgPerM3());
        outlet.set(viscosity, oil.densityKgPerM3(), condition);
        motor.setViscosityRatio(viscosity / referenceViscosityPaS);
        internalSlipM3PerSPa = condition.internalSlipFactor * internalSlipM3 / viscosity;
        lineLeakM3PerSPa = laminarLeakM3 / viscosity;
    }

    void setRange(Range newRange) {
        range = newRange;
        setRegulator();
    }

    /** A regulator stuck open dumps from no pressure on, one stuck shut never. */
    private void setRegulator() {
        regulatorSetPa = switch (condition.regulator) {
            case HEALTHY -> regulator.setPressurePa(range);
            case STUCK_OPEN -> 0;
            case STUCK_SHUT -> Double.POSITIVE_INFINITY;
        };
        regulatorOpensM3 = condition.regulator == Condition.Valve.STUCK_SHUT
                ? Double.POSITIVE_INFINITY
                : storage.storedM3(regulatorSetPa);
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
        boolean powered = contactClosed && !condition.fuseBlown && !condition.motorOpen;
        return motor.currentAmps(powered, busOpenVolts(timeS), pumpRadPerS);
    }

    /** Flow of the internal pump, m³/s, signed: a shaft turning backward draws oil out of the line. */
    double internalFlow(double timeS, double linePa) {
        return displacementM3PerRad * Math.min(shaftRadPerS(timeS), fillLimitRadPerS) - internalSlipM3PerSPa * linePa;
    }

    /** The flows that belong to no element, into q; their sum is the line's net flow without the feeds. */
    private double lineFlows(double timeS, double linePa, double pumpRadPerS, double[] q) {
        outlet.solve(pumpRadPerS, linePa);
        q[INTERNAL] = internalFlow(timeS, linePa);
        q[ELECTRIC] = outlet.flowM3PerS;
        q[LAMINAR_LEAK] = lineLeakM3PerSPa * linePa;
        q[ORIFICE_LEAK] = orifice.flow(leakAreaM2, linePa);
        q[REGULATOR] = regulatorGainM3PerSPa * Math.max(0, linePa - regulatorSetPa);
        return q[INTERNAL] + q[ELECTRIC] - q[LAMINAR_LEAK] - q[ORIFICE_LEAK] - q[REGULATOR];
    }

    @Override
    public void evaluate(double timeS, double[] y, double[] f, double[] q) {
        double net = rates(timeS, y, f, q);
        f[STORED] = lineDry ? 0 : net;
    }

    /** Rates of pump and elements into f, flows into q. Returns what would flow into the line, were it not dry, m³/s. */
    double rates(double timeS, double[] y, double[] f, double[] q) {
        double linePa = storage.pressurePa(y[STORED]);
        double pumpRadPerS = Math.max(0, y[PUMP_SPEED]);
        double net = lineFlows(timeS, linePa, pumpRadPerS, q);
        double current = pumpCurrentAmps(timeS, pumpRadPerS);
        f[PUMP_SPEED] = condition.motorStalled
                ? -pumpRadPerS / STALLING_S
                : motor.acceleration(current, outlet.outletPa, pumpRadPerS);
        for (int k = 0; k < Element.COUNT; k++) {
            ApplyElement element = elements[k];
            double volume = y[FIRST_ELEMENT + k];
            double feed = element.feed(linePa, volume);
            f[FIRST_ELEMENT + k] = feed - element.drain(volume);
            net -= feed;
        }
        return net;
    }

    @Override
    public void linearise(double timeS, double[] y, double[] f, double[] q, Linearisation out) {
        double net = rates(timeS, y, f, q);
        f[STORED] = lineDry ? 0 : net;
        double linePa = storage.pressurePa(y[STORED]);
        double perM3 = 1 / storage.complianceM3PerPa(linePa);
        double pumpRadPerS = Math.max(0, y[PUMP_SPEED]);

        out.flowByHub[INTERNAL] = -internalSlipM3PerSPa * perM3;
        out.flowByHub[ELECTRIC] = outlet.flowByPressure * perM3;
        out.flowByHub[LAMINAR_LEAK] = lineLeakM3PerSPa * perM3;
        out.flowByHub[ORIFICE_LEAK] = orifice.conductance(leakAreaM2, linePa, q[ORIFICE_LEAK]) * perM3;
        boolean regulates = y[STORED] > regulatorOpensM3 || y[STORED] == regulatorOpensM3 && net > 0;
        out.flowByHub[REGULATOR] = regulates ? regulatorGainM3PerSPa * perM3 : 0;
        out.flowByFirstLeaf[ELECTRIC] = outlet.flowBySpeed;
        out.flowByTime[INTERNAL] = shaftRadPerS(timeS) < fillLimitRadPerS ? displacementM3PerRad * shaftSlope : 0;

        double hubByHub = out.flowByHub[INTERNAL]
                + out.flowByHub[ELECTRIC]
                - out.flowByHub[LAMINAR_LEAK]
                - out.flowByHub[ORIFICE_LEAK]
                - out.flowByHub[REGULATOR];
        linearisePump(timeS, perM3, pumpRadPerS, out);
        double tolerablePa = tolerance.pressurePa + tolerance.relative * linePa;
        for (int k = 0; k < Element.COUNT; k++) {
            hubByHub += lineariseElement(k, linePa, perM3, y[FIRST_ELEMENT + k], out);
            out.tolerable[FIRST_ELEMENT + k] = elements[k].piston == Piston.TOUCHED
                    ? tolerablePa / elements[k].pistonPaPerM3()
                    : tolerance.strokePart * elements[k].strokeM3;
        }
        out.hubByHub = lineDry ? 0 : hubByHub;
        out.hubByLeaf[PUMP_SPEED] = lineDry ? 0 : outlet.flowBySpeed;
        out.byTime[STORED] = lineDry ? 0 : out.flowByTime[INTERNAL];
        out.tolerable[STORED] = tolerablePa / perM3;
    }

    private void linearisePump(double timeS, double perM3, double pumpRadPerS, Linearisation out) {
        double current = pumpCurrentAmps(timeS, pumpRadPerS);
        double byOutlet = motor.accelerationByOutlet();
        if (condition.motorStalled) {
            out.leafByHub[PUMP_SPEED] = 0;
            out.leafByLeaf[PUMP_SPEED] = -1 / STALLING_S;
            out.byTime[PUMP_SPEED] = 0;
            out.tolerable[PUMP_SPEED] = tolerance.pumpRadPerS + tolerance.relative * pumpRadPerS;
            return;
        }
        out.leafByHub[PUMP_SPEED] = byOutlet * outlet.outletByPressure * perM3;
        out.leafByLeaf[PUMP_SPEED] = motor.accelerationBySpeed(current, pumpRadPerS) + byOutlet * outlet.outletBySpeed;
        out.byTime[PUMP_SPEED] = motor.accelerationByVolts(current) * busSlope;
        out.tolerable[PUMP_SPEED] = tolerance.pumpRadPerS + tolerance.relative * pumpRadPerS;
    }

    /** Derivatives of one element; returns its part of ∂f_0/∂y_0. */
    private double lineariseElement(int k, double linePa, double perM3, double volumeM3, Linearisation out) {
        ApplyElement element = elements[k];
        int i = FIRST_ELEMENT + k;
        if (element.piston == Piston.EMPTY) {
            out.leafByHub[i] = 0;
            out.leafByLeaf[i] = 0;
            out.hubByLeaf[i] = 0;
            return 0;
        }
        double feed = element.feedConductance(linePa, volumeM3, element.feed(linePa, volumeM3));
        double drain = element.drainConductance(volumeM3, element.drain(volumeM3));
        out.leafByLeaf[i] = -(feed + drain) * element.pistonPaPerM3();
        out.leafByHub[i] = feed * perM3;
        out.hubByLeaf[i] = lineDry ? 0 : feed * element.pistonPaPerM3();
        return -feed * perM3;
    }
}
