package linehold.simulator.circuit;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.Range;
import linehold.simulator.build.ApplyElementSpec;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import org.hipparchus.ode.ODEState;
import org.hipparchus.ode.ODEStateAndDerivative;
import org.hipparchus.ode.OrdinaryDifferentialEquation;
import org.hipparchus.ode.events.Action;
import org.hipparchus.ode.events.AdaptableInterval;
import org.hipparchus.ode.events.ODEEventDetector;
import org.hipparchus.ode.events.ODEEventHandler;
import org.hipparchus.ode.nonstiff.DormandPrince853Integrator;

/**
 * The circuit of docs/model.md written down a second time, straight from its equations and with none of our own
 * classes but the build's numbers: line PRESSURE as the state, no Jacobian, no interpolant. Solved by a general-purpose
 * library (Hipparchus, Dormand-Prince 8(5,3)) at a relative tolerance of 1e-9 and stopped at every kink.
 */
final class SecondCircuit implements OrdinaryDifferentialEquation {
    private static final double ATMOSPHERE = 101_325;
    private static final int P = 0;
    private static final int W = 1;
    private static final int V = 2;

    private final Build build;
    private final double[] y = new double[V + Element.COUNT];
    private double time;

    // conditions; times are those at which the linear ones were set
    private double shaft;
    private double shaftSlope;
    private double shaftTime;
    private double bus;
    private double busSlope;
    private double busTime;
    private double oil;
    private double oilSlope;
    private double oilTime;
    private Range range = Range.PARK;
    private boolean contact;
    private boolean valveFailedOpen;
    private double contactOhm;
    private final boolean[] commanded = new boolean[Element.COUNT];

    // modes
    private boolean dry;
    private final boolean[] empty = new boolean[Element.COUNT];
    private Runnable landing;

    /** Instant at which an element's piston touched. */
    record Touch(Element element, double timeS) {}

    final List<Touch> touches = new ArrayList<>();

    SecondCircuit(Build build, double oilC) {
        this.build = build;
        oil = oilC;
        bus = build.supply().openVolts();
        contactOhm = build.relay().contactResistanceOhm();
    }

    void start(double p, double w, double... v) {
        y[P] = p;
        y[W] = w;
        System.arraycopy(v, 0, y, V, v.length);
    }

    void setShaft(double radPerS, double slope) {
        shaft = radPerS;
        shaftSlope = slope;
        shaftTime = time;
    }

    void setBus(double volts, double slope) {
        bus = volts;
        busSlope = slope;
        busTime = time;
    }

    void setOil(double celsius, double slope) {
        oil = celsius;
        oilSlope = slope;
        oilTime = time;
    }

    void setRange(Range newRange) {
        range = newRange;
    }

    void setContact(boolean closed) {
        contact = closed;
    }

    void setContactOhm(double ohm) {
        contactOhm = ohm;
    }

    void setValveFailedOpen(boolean failed) {
        valveFailedOpen = failed;
    }

    void command(Element element, boolean on) {
        commanded[element.ordinal()] = on;
    }

    double linePressurePa() {
        return y[P];
    }

    double pumpRadPerS() {
        return y[W];
    }

    double elementVolumeM3(Element element) {
        return y[V + element.ordinal()];
    }

    // ---- equations --------------------------------------------------------------------------------------------

    @Override
    public int getDimension() {
        return y.length;
    }

    @Override
    public double[] computeDerivatives(double t, double[] state) {
        double[] rate = new double[state.length];
        double net = net(t, state, rate);
        double absolute = state[P] + ATMOSPHERE;
        double perBulk = 1 / build.oil().bulkModulusPa() + build.oil().entrainedAir() * ATMOSPHERE / square(absolute);
        double compliance = build.line().volumeM3() * perBulk + build.line().structureComplianceM3PerPa();
        var gas = build.line().accumulator();
        if (gas != null && absolute > gas.prechargePa()) {
            compliance += gas.gasVolumeM3() * gas.prechargePa() / square(absolute);
        }
        rate[P] = dry ? 0 : net / compliance;
        return rate;
    }

    /** Net flow into the line; the rates of pump and elements as well. */
    private double net(double t, double[] state, double[] rate) {
        double p = Math.max(0, state[P]);
        double celsius = oil + oilSlope * (t - oilTime);
        double density = build.oil().density15KgPerM3() * (1 - build.oil().expansionPerK() * (celsius - 15));
        double mu = walther(celsius) * 1e-6 * density;

        double turns = Math.min(
                (shaft + shaftSlope * (t - shaftTime)) / (2 * Math.PI),
                build.internalPump().fillLimitRevPerS());
        double net = build.internalPump().displacementM3PerRev() * turns
                - build.internalPump().slipM3() * p / mu
                - build.line().laminarLeakM3() * p / mu
                - build.line().orificeLeakM2() * sq(p, density)
                - build.regulator().gainM3PerSPa()
                        * Math.max(0, p - build.regulator().setPressurePa(range));
        net += electric(t, p, Math.max(0, state[W]), mu, density, rate);
        for (int k = 0; k < Element.COUNT; k++) {
            ApplyElementSpec spec = build.elements().get(k);
            double v = state[V + k];
            double ret = spec.returnPressurePa();
            double piston = v < spec.strokeVolumeM3()
                    ? ret + (spec.touchPressurePa() - ret) * v / spec.strokeVolumeM3()
                    : spec.touchPressurePa() + (v - spec.strokeVolumeM3()) / spec.complianceM3PerPa();
            if (empty[k]) {
                rate[V + k] = 0;
            } else if (commanded[k]) {
                rate[V + k] = build.feed().feedAreaM2() * sq(p - piston, density);
                net -= rate[V + k];
            } else {
                rate[V + k] = -build.feed().exhaustAreaM2() * sq(piston, density);
            }
        }
        return net;
    }

    /** Flow of the electric pump into the line; its acceleration into the rates. */
    private double electric(double t, double p, double w, double mu, double density, double[] rate) {
        var pump = build.electricPump();
        var hose = build.hose();
        double perRadian = pump.displacementM3PerRev() / (2 * Math.PI);
        double laminar = hose.laminarPaSPerM3() * mu / hose.referenceViscosityPaS();
        double turbulent = hose.turbulentPaS2PerM6() * density / hose.referenceDensityKgPerM3();
        double slip = pump.slipM3() / mu;
        // Q + slip·(p + crack + laminar·Q + turbulent·Q²) = D·w
        double delivered = perRadian * w - slip * (p + hose.crackPa());
        double q = positiveRoot(slip * turbulent, 1 + slip * laminar, delivered);
        double outlet = delivered > 0 ? p + hose.crackPa() + laminar * q + turbulent * q * q : perRadian * w / slip;
        if (outlet > pump.reliefPa()) {
            outlet = pump.reliefPa();
            q = positiveRoot(turbulent, laminar, outlet - p - hose.crackPa());
        }
        if (valveFailedOpen && p > outlet) {
            q -= hose.failedOpenAreaM2() * sq(p - outlet, density);
        }
        double ohm = pump.armatureResistanceOhm()
                + build.supply().wireResistanceOhm()
                + build.supply().sourceResistanceOhm()
                + contactOhm;
        double k = pump.motorConstantVsPerRad();
        double amps = contact ? Math.max(0, (bus + busSlope * (t - busTime) - k * w) / ohm) : 0;
        double friction = pump.coulombTorqueNm() * Math.min(1, w)
                + pump.viscousTorqueNmS() * mu / hose.referenceViscosityPaS() * w;
        rate[W] = (k * amps - perRadian * outlet - friction) / pump.inertiaKgM2();
        return q;
    }

    /** Root of a·q² + b·q = c for c above 0, else 0. */
    private static double positiveRoot(double a, double b, double c) {
        return c <= 0 ? 0 : 2 * c / (b + Math.sqrt(b * b + 4 * a * c));
    }

    /** log10(log10(ν + 0.7)) = A − B·log10 T through 40 °C and 100 °C, mm²/s. */
    private double walther(double celsius) {
        double y40 = Math.log10(Math.log10(build.oil().kinematicViscosity40M2PerS() * 1e6 + 0.7));
        double y100 = Math.log10(Math.log10(build.oil().kinematicViscosity100M2PerS() * 1e6 + 0.7));
        double part = Math.log((celsius + 273.15) / 313.15) / Math.log(373.15 / 313.15);
        return Math.pow(10, Math.pow(10, y40 + (y100 - y40) * part)) - 0.7;
    }

    private double sq(double x, double density) {
        double linear = build.line().linearBelowPa();
        if (Math.abs(x) < linear) {
            return x * Math.sqrt(2 / (density * linear)) * (1.25 - 0.25 * square(x / linear));
        }
        return Math.signum(x) * Math.sqrt(2 * Math.abs(x) / density);
    }

    private static double square(double x) {
        return x * x;
    }

    // ---- time, stopped at kinks -------------------------------------------------------------------------------

    void advance(double toS) {
        while (time < toS) {
            settle();
            landing = null;
            double[] absolute = {1e-3, 1e-7, 1e-15, 1e-15, 1e-15};
            double[] relative = {1e-9, 1e-9, 1e-9, 1e-9, 1e-9};
            var integrator = new DormandPrince853Integrator(1e-13, 0.02, absolute, relative);
            kinks().forEach(integrator::addEventDetector);
            ODEStateAndDerivative end = integrator.integrate(this, new ODEState(time, y), toS);
            time = end.getTime();
            System.arraycopy(end.getPrimaryState(), 0, y, 0, y.length);
            if (landing != null) {
                landing.run();
            }
        }
    }

    private void settle() {
        for (int k = 0; k < Element.COUNT; k++) {
            if (y[V + k] <= 0) {
                y[V + k] = 0;
                empty[k] = !(commanded[k] && y[P] >= build.elements().get(k).returnPressurePa());
            } else {
                empty[k] = false;
            }
        }
        if (y[P] <= 0) {
            y[P] = 0;
            dry = net(time, y, new double[y.length]) <= 0;
        } else {
            dry = false;
        }
    }

    private List<ODEEventDetector> kinks() {
        List<ODEEventDetector> kinks = new ArrayList<>();
        if (dry) {
            // The solver looks for ever for the sign of a function that stays exactly zero, as with everything at rest.
            double least = 1e-13;
            kinks.add(kink(
                    s -> net(s.getTime(), s.getPrimaryState(), new double[y.length]) - least, true, false, () -> {}));
        } else {
            double set = build.regulator().setPressurePa(range);
            kinks.add(kink(s -> s.getPrimaryState()[P], false, true, () -> y[P] = 0));
            kinks.add(kink(s -> s.getPrimaryState()[P] - set, true, true, () -> y[P] = set));
        }
        for (int k = 0; k < Element.COUNT; k++) {
            ApplyElementSpec spec = build.elements().get(k);
            int i = V + k;
            Element element = Element.values()[k];
            if (empty[k]) {
                double ret = spec.returnPressurePa();
                kinks.add(kink(s -> s.getPrimaryState()[P] - ret, true, false, () -> y[P] = ret));
            } else {
                double stroke = spec.strokeVolumeM3();
                boolean before = y[i] < stroke;
                kinks.add(kink(s -> s.getPrimaryState()[i] * 1e6, false, true, () -> y[i] = 0));
                kinks.add(kink(s -> (s.getPrimaryState()[i] - stroke) * 1e6, true, true, () -> {
                    y[i] = stroke;
                    if (before) {
                        touches.add(new Touch(element, time));
                    }
                }));
            }
        }
        return kinks;
    }

    private interface Switch {
        double g(ODEStateAndDerivative s);
    }

    private ODEEventDetector kink(Switch g, boolean rising, boolean falling, Runnable land) {
        ODEEventHandler handler = (state, detector, increasing) -> {
            if (increasing ? rising : falling) {
                landing = land;
                return Action.STOP;
            }
            return Action.CONTINUE;
        };
        return new ODEEventDetector() {
            @Override
            public double g(ODEStateAndDerivative state) {
                return g.g(state);
            }

            @Override
            public AdaptableInterval getMaxCheckInterval() {
                return AdaptableInterval.of(1e-3);
            }

            @Override
            public int getMaxIterationCount() {
                return 100;
            }

            @Override
            public org.hipparchus.analysis.solvers.BracketedUnivariateSolver<org.hipparchus.analysis.UnivariateFunction>
                    getSolver() {
                return new org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver(0, 1e-10, 0, 5);
            }

            @Override
            public ODEEventHandler getHandler() {
                return handler;
            }
        };
    }
}
