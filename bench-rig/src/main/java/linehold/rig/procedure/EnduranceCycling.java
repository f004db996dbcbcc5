package linehold.rig.procedure;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.Range;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;

/** The main relay and the pump, on and off many times. */
final class EnduranceCycling {
    private static final double ON_S = 2;
    private static final double LEAST_OFF_S = 2;
    /** A pump without load coasts this long, s; assumed. */
    private static final double LONGEST_OFF_S = 15;

    /** The last tenth of the cycles over the first in time to pressure; assumed. */
    private static final double MOST_DRIFT = 1.25;

    private final Bench bench;
    private final Calibration calibration;
    private final int cycles;
    private final Mean readback = new Mean();
    private final Mean toPressure = new Mean();
    private final Mean early = new Mean();
    private final Mean late = new Mean();
    private int cycle;
    private double closedS;
    private double pressureS;

    private EnduranceCycling(Bench bench) {
        this.bench = bench;
        calibration = bench.calibration();
        cycles = bench.cycles();
    }

    static List<Step> steps(Bench bench) {
        EnduranceCycling cycling = new EnduranceCycling(bench);
        Shaft still = Shaft.still(Range.NEUTRAL);
        Step off = Step.of("Pump off", Command.PUMP_OFF, still, LONGEST_OFF_S, cycling::staysOn, cycling::off);
        Step on = Step.of("Pump on", Command.MAIN_RELAY, still, ON_S + 1, now -> "", cycling::on);
        List<Step> steps = new ArrayList<>();
        steps.add(Common.prepare(bench, Range.NEUTRAL));
        for (int i = 0; i < cycling.cycles; i++) {
            steps.add(off);
            steps.add(on);
        }
        return steps;
    }

    private boolean off(Reading now, Findings findings) {
        return now.stepS() >= LEAST_OFF_S && !now.closed(now.mainVolts);
    }

    private String staysOn(Reading now) {
        return at() + "voltage stays behind the main contact with the relay off ("
                + bench.volts().text(now.mainVolts) + "): the contact is welded, or the coil's wire is off.";
    }

    private String at() {
        return "Cycle " + (cycle + 1) + " of " + cycles + ": ";
    }

    private boolean on(Reading now, Findings findings) {
        if (now.first()) {
            closedS = Double.NaN;
            pressureS = Double.NaN;
            return false;
        }
        if (Double.isNaN(closedS) && now.closed(now.mainVolts)) {
            closedS = now.stepS();
        }
        if (Double.isNaN(pressureS) && now.pressurePa >= bench.build().limits().holdPressurePa()) {
            pressureS = now.stepS();
        }
        if (now.stepS() < ON_S) {
            return false;
        }
        cycled(now, findings);
        return true;
    }

    private void cycled(Reading now, Findings findings) {
        double readbackS = calibration.get(Key.RELAY_READBACK_TIME);
        if (!(closedS <= readbackS)) {
            findings.fail(
                    at() + (Double.isNaN(closedS) ? "no voltage" : "late voltage")
                            + " behind the main contact: the relay does not close, its coil is not driven, or the fuse is blown.");
        } else if (Double.isNaN(pressureS)) {
            findings.fail(at() + "hold pressure was not reached within "
                    + bench.display().time(ON_S) + "; the line has "
                    + bench.display().pressure(now.pressurePa) + ".");
        } else {
            readback.add(closedS);
            toPressure.add(pressureS);
            int tenth = Math.max(1, cycles / 10);
            if (cycle < tenth) {
                early.add(pressureS);
            }
            if (cycle >= cycles - tenth) {
                late.add(pressureS);
            }
        }
        boolean failed = findings.failure() != null;
        cycle++;
        if (failed || cycle == cycles) {
            tell(findings);
        }
    }

    private void tell(Findings findings) {
        findings.atLeast(
                "cycles-held",
                "Cycles that closed and held",
                bench.plain(0),
                toPressure.count(),
                cycles,
                "Only " + toPressure.count() + " of " + cycles + " cycles held.");
        if (toPressure.count() == 0) {
            return;
        }
        findings.info("relay-operations", "Relay operations", bench.plain(0), 2.0 * cycle);
        findings.info(
                "slowest-readback",
                "Slowest from coil to voltage behind the contact",
                bench.display().shortTimeScale(),
                readback.highest());
        findings.info(
                "fastest-pressure",
                "Fastest from coil to hold pressure",
                bench.display().shortTimeScale(),
                toPressure.lowest());
        findings.info(
                "slowest-pressure",
                "Slowest from coil to hold pressure",
                bench.display().shortTimeScale(),
                toPressure.highest());
        if (late.count() > 0) {
            double drift = late.value() / early.value();
            findings.atMost(
                    "drift",
                    "Time to pressure, last tenth of the cycles over the first",
                    bench.plain(2),
                    drift,
                    MOST_DRIFT,
                    "Time to pressure has grown by the factor "
                            + bench.plain(2).text(drift).strip() + ": pump, contact or oil change while they work.");
        }
    }
}
