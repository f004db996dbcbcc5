package linehold.rig.procedure;

import java.util.List;
import linehold.controller.Range;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.safety.SelfTestState;
import linehold.controller.switching.PumpState;

/** From an empty line to hold pressure, with the band of first to fill: the hardest prime that the car knows. */
final class PrimeCheck {
    private static final double RESERVE_S = 5;

    private final Bench bench;
    private final Calibration calibration;
    private double closedS;
    private double testedS;

    private PrimeCheck(Bench bench) {
        this.bench = bench;
        calibration = bench.calibration();
    }

    static List<Step> steps(Bench bench) {
        PrimeCheck check = new PrimeCheck(bench);
        Shaft still = Shaft.still(Range.DRIVE);
        double longestS = check.calibration.at(Key.PRIME_LIMIT_TIME, Double.NaN) + RESERVE_S;
        return List.of(
                Common.prepare(bench, Range.DRIVE),
                Common.empty(bench, still),
                Step.of(
                        "Main relay fills the line",
                        Command.MAIN_RELAY,
                        still,
                        longestS,
                        check::notFilled,
                        check::filled),
                Common.empty(bench, still),
                Step.of(
                        "Controller primes as at key-on",
                        Command.CONTROLLER,
                        still,
                        longestS,
                        now -> "The controller has not primed within "
                                + bench.display().time(longestS) + Common.codes(now) + "; the line has "
                                + bench.display().pressure(now.pressurePa) + ".",
                        check::primed));
    }

    private boolean filled(Reading now, Findings findings) {
        if (now.first()) {
            closedS = Double.NaN;
        }
        if (Double.isNaN(closedS) && !now.first() && now.closed(now.mainVolts)) {
            closedS = now.stepS();
        }
        if (!(now.pressurePa >= bench.build().limits().holdPressurePa())) {
            return false;
        }
        double limitS = calibration.at(Key.PRIME_TIME, now.oilC);
        double fillS = now.stepS() - (Double.isNaN(closedS) ? 0 : closedS);
        findings.atMost(
                "fill-time",
                "From the contact's closing to hold pressure",
                bench.display().timeScale(),
                fillS,
                limitS,
                "The line took " + bench.display().time(fillS) + " to hold pressure, allowed are "
                        + bench.display().time(limitS) + " at this oil temperature: a worn or starved pump, a leak, air"
                        + " in the oil.");
        return true;
    }

    private String notFilled(Reading now) {
        if (!now.closed(now.mainVolts)) {
            return Common.NOT_FED;
        }
        return "The line does not reach hold pressure; it has "
                + bench.display().pressure(now.pressurePa)
                + ": no oil at the pump's inlet, a pump that does not turn, a check valve that sticks, or a large leak.";
    }

    private boolean primed(Reading now, Findings findings) {
        if (now.first()) {
            testedS = Double.NaN;
        }
        if (Double.isNaN(testedS) && now.decided.selfTest != SelfTestState.RUNNING && !now.first()) {
            testedS = now.stepS();
        }
        Common.noCodes(now, findings);
        if (now.decided.state != PumpState.ELECTRIC) {
            return false;
        }
        findings.info(
                "key-on-to-primed", "From key-on until primed", bench.display().timeScale(), now.stepS());
        double limitS = calibration.at(Key.PRIME_LIMIT_TIME, now.oilC);
        double primeS = now.stepS() - testedS;
        findings.atMost(
                "prime-time",
                "From the relays' test until primed",
                bench.display().timeScale(),
                primeS,
                limitS,
                "Priming took " + bench.display().time(primeS) + ", allowed are "
                        + bench.display().time(limitS) + " at this oil temperature.");
        boolean tested = now.decided.selfTest == SelfTestState.PASSED;
        findings.atLeast(
                "relay-test",
                "Test of the relays at key-on passed",
                bench.plain(0),
                tested ? 1 : 0,
                1,
                "The controller's test of the relays did not pass: run the procedure wiring.");
        return true;
    }
}
