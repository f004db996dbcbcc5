package linehold.simulator.window;

import linehold.controller.Range;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.HoseSpec;
import linehold.simulator.build.LineSpec;
import linehold.simulator.build.RelaySpec;
import linehold.simulator.circuit.Plant;
import linehold.simulator.electrics.Relay;
import linehold.simulator.oil.Oil;

/** Takes the electric pump's lead time apart by running it against a line that stays at the hold pressure. */
final class LeadTimes {
    /** A line so large that its pressure stays while the pump starts, m³. */
    private static final double STEADY_LINE_M3 = 100;

    private static final double RESOLUTION_S = 1e-4;
    private static final double LONGEST_S = 3;
    /** The hose equation needs some laminar resistance: a thousandth of the build's. */
    private static final double NO_HOSE = 1e-3;

    private final Build build;
    private final RelaySpec relay;

    LeadTimes(Build build) {
        this.build = build;
        boolean normallyClosed = build.calibration().is(Key.NORMALLY_CLOSED_CONTACT);
        relay = normallyClosed ? build.relay().seenFromNormallyClosedContact() : build.relay();
    }

    LeadTime at(double oilC, double busVolts, double onRadPerS) {
        double bareS = carriesAfterS(withoutHose(), oilC, busVolts, false);
        double bouncedS = carriesAfterS(withoutHose(), oilC, busVolts, true);
        double wholeS = carriesAfterS(build, oilC, busVolts, true);
        double pulseS = 2 * Math.PI / build.calibration().get(Key.PULSES_PER_REVOLUTION) / onRadPerS;
        return new LeadTime(
                oilC,
                busVolts,
                // An edge up to half a pulse after the crossing still shows the mean above it: Stop.seenAfterS.
                1.5 * pulseS,
                build.calibration().get(Key.CONTROL_PERIOD),
                relay.pullInS(),
                difference(bouncedS, bareS),
                bareS,
                difference(wholeS, bouncedS));
    }

    private static double difference(double longerS, double shorterS) {
        return Double.isInfinite(shorterS) ? 0 : Math.max(0, longerS - shorterS);
    }

    /** Time from the contact's closing until the pump's flow covers the leakage at hold pressure, s. */
    private double carriesAfterS(Build car, double oilC, double busVolts, boolean withBounce) {
        double holdPa = car.limits().holdPressurePa();
        Plant plant = new Plant(steady(car), relay, oilC, withBounce, false);
        plant.setRange(Range.DRIVE);
        plant.start(holdPa, 0, new double[3]);
        plant.setBus(busVolts, 0);
        plant.ask(Relay.MAIN, true);
        double needed = leakageM3PerS(car, oilC);
        for (int i = 0; i * RESOLUTION_S <= LONGEST_S; i++) {
            plant.advance(relay.pullInS() + i * RESOLUTION_S, Double.POSITIVE_INFINITY);
            if (plant.electricFlowM3PerS() >= needed) {
                return i * RESOLUTION_S;
            }
        }
        return Double.POSITIVE_INFINITY;
    }

    /** What leaks away at hold pressure with the shaft at rest: Q = (S_int + S_line)·p/μ + (Cd·A)_leak·√(2p/ρ), m³/s. */
    static double leakageM3PerS(Build build, double oilC) {
        double holdPa = build.limits().holdPressurePa();
        Oil oil = new Oil(build.oil(), oilC);
        return (build.internalPump().slipM3() + build.line().laminarLeakM3()) * holdPa / oil.viscosityPaS()
                + build.line().orificeLeakM2() * Math.sqrt(2 * holdPa / oil.densityKgPerM3());
    }

    private Build withoutHose() {
        HoseSpec hose = build.hose();
        return Changes.of(
                build,
                parts -> parts.hose = new HoseSpec(
                        hose.crackPa(),
                        hose.laminarPaSPerM3() * NO_HOSE,
                        hose.turbulentPaS2PerM6() * NO_HOSE,
                        hose.referenceViscosityPaS(),
                        hose.referenceDensityKgPerM3(),
                        hose.failedOpenAreaM2()));
    }

    private static Build steady(Build car) {
        LineSpec line = car.line();
        return Changes.of(
                car,
                parts -> parts.line = new LineSpec(
                        STEADY_LINE_M3,
                        line.structureComplianceM3PerPa(),
                        line.laminarLeakM3(),
                        line.orificeLeakM2(),
                        line.linearBelowPa(),
                        null));
    }
}
