package linehold.rig.procedure;

import java.util.List;
import linehold.controller.Range;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;

/**
 * How long the electric pump takes to be there, against a line that the internal pump holds under pressure, as when the
 * shaft slows down: relay, motor to 95 % of its speed, first flow into the line.
 *
 * <p>The motor's speed shows in its current, which falls from V/R at rest to that at its running speed in a straight line
 * with speed: i = (V − K·w)/R.
 */
final class SpinUpCheck {
    private static final double STOPPED_S = 3;
    private static final double SHARE = 0.95;
    private static final double LOOK_S = 2;
    /** Running current is the mean from here on, s; assumed: far beyond any motor's start. */
    private static final double RUNNING_FROM_S = 1.5;
    /** Flow shows by this much pressure above what was, Pa; assumed: above a wavering drill. */
    private static final double RISE_PA = 10_000;

    private static final double NOISE_DEVIATIONS = 5;
    private static final double RELIEF_SHARE = 0.9;
    /** The hose takes so much pressure of colder oil that the flow does not show; computed for the demonstration build. */
    private static final double COLD_OIL_C = 10;

    private static final String LEAD_TIME = "From coil to flow into the line";
    private static final int MOST_SAMPLES = 4000;

    private final Bench bench;
    private final Calibration calibration;
    private final double drillRadPerS;
    private final double leastPa;
    private final double mostPa;
    private final Mean before = new Mean();
    private final Mean running = new Mean();
    private final double[] sampleS = new double[MOST_SAMPLES];
    private final double[] sampleAmps = new double[MOST_SAMPLES];
    private int samples;
    private double steadySinceS;
    private double stallAmps;
    private double closedS;
    private double flowS;

    private SpinUpCheck(Bench bench) {
        this.bench = bench;
        calibration = bench.calibration();
        drillRadPerS = calibration.get(Key.SWITCH_ON_SPEED);
        leastPa = bench.build().limits().holdPressurePa();
        mostPa = RELIEF_SHARE * bench.build().electricPump().reliefPa();
    }

    static List<Step> steps(Bench bench) {
        SpinUpCheck check = new SpinUpCheck(bench);
        String wanted = bench.display().pressureScale().number(check.leastPa) + " to "
                + bench.display().pressure(check.mostPa);
        Shaft turning = Shaft.at(check.drillRadPerS);
        return List.of(
                Common.prepare(bench, Range.NEUTRAL),
                Step.of(
                                "Internal pump holds the line, pump off",
                                Command.PUMP_OFF,
                                turning,
                                Step.PATIENCE_S,
                                now -> "The internal pump alone has not brought the line to " + wanted + "; it has "
                                        + bench.display().pressure(now.pressurePa) + " at "
                                        + bench.display().speed(now.shaftRadPerS()) + ".",
                                check::held)
                        .telling("Set the drill to about " + bench.display().speed(check.drillRadPerS)
                                + ", so that the line keeps " + wanted + ", and hold it."),
                Step.of("Pump on", Command.MAIN_RELAY, turning, LOOK_S + 1, now -> "", check::timed)
                        .telling("Hold the drill steady."),
                Step.of(
                                "Shaft stops",
                                Command.SAFE,
                                Shaft.still(Range.NEUTRAL),
                                Step.PATIENCE_S,
                                now -> "The shaft still turns.",
                                (now, findings) -> now.shaftRadPerS() < check.calibration.get(Key.STANDSTILL_SPEED))
                        .telling("Let the shaft come to rest."));
    }

    /** Until line and drill have been steady for long enough that the electric pump has stopped. */
    private boolean held(Reading now, Findings findings) {
        boolean held = now.pressurePa >= leastPa && now.pressurePa <= mostPa;
        if (!held || now.first()) {
            steadySinceS = now.stepS();
            before.clear();
        }
        if (now.stepS() - steadySinceS >= STOPPED_S - 1) {
            before.add(now.pressurePa);
        }
        Build build = bench.build();
        double ohm = build.electricPump().armatureResistanceOhm()
                + build.supply().wireResistanceOhm()
                + build.supply().sourceResistanceOhm()
                + build.relay().contactResistanceOhm();
        stallAmps = now.busVolts / ohm;
        boolean steady = now.stepS() - steadySinceS >= STOPPED_S;
        if (steady && now.closed(now.mainVolts)) {
            findings.fail("Voltage stays behind the main contact with the relay off: run the procedure wiring.");
        }
        return steady;
    }

    private boolean timed(Reading now, Findings findings) {
        if (now.first()) {
            samples = 0;
            running.clear();
            closedS = Double.NaN;
            flowS = Double.NaN;
        } else {
            look(now);
        }
        if (now.stepS() < LOOK_S) {
            return false;
        }
        judge(now, findings);
        return true;
    }

    private void look(Reading now) {
        double nowS = now.stepS();
        if (Double.isNaN(closedS) && now.closed(now.mainVolts)) {
            closedS = nowS;
        }
        double risePa =
                Math.max(RISE_PA, NOISE_DEVIATIONS * bench.build().sensors().pressureNoisePa());
        if (Double.isNaN(flowS) && now.pressurePa >= before.value() + risePa) {
            flowS = nowS;
        }
        if (samples < MOST_SAMPLES) {
            sampleS[samples] = nowS;
            sampleAmps[samples] = now.amps;
            samples++;
        }
        if (nowS >= RUNNING_FROM_S) {
            running.add(now.amps);
        }
    }

    private void judge(Reading now, Findings findings) {
        findings.info("line-before", "Line before", bench.display().pressureScale(), before.value());
        findings.atMost(
                "relay-time",
                "From coil to voltage behind the contact",
                bench.display().shortTimeScale(),
                closedS,
                calibration.get(Key.RELAY_READBACK_TIME),
                "Voltage behind the main contact came late or not at all: run the procedure wiring.");
        if (calibration.is(Key.PUMP_CURRENT_FITTED)) {
            findings.info("stall-current", "Current of the motor at rest, computed", bench.amps(), stallAmps);
            findings.info("running-current", "Current of the running motor", bench.amps(), running.value());
            double limitS = calibration.at(Key.PUMP_SPIN_UP_TIME, now.oilC);
            double spinUpS = spinUpS();
            findings.atMost(
                    "spin-up-time",
                    "From the contact's closing to 95 % of the motor's speed",
                    bench.display().shortTimeScale(),
                    spinUpS,
                    limitS,
                    Double.isNaN(spinUpS)
                            ? "Pump current does not show a motor that comes to speed: the current sensor, or the wire to"
                                    + " the pump."
                            : "The motor took " + bench.display().shortTime(spinUpS) + " to come to speed, allowed are "
                                    + bench.display().shortTime(limitS)
                                    + ": a worn contact, thin cable, tired battery or a motor"
                                    + " that binds.");
        }
        if (now.oilC < COLD_OIL_C) {
            findings.info("lead-time", LEAD_TIME, bench.display().shortTimeScale(), flowS);
            return;
        }
        double leadS = calibration.at(Key.PUMP_LEAD_TIME, now.oilC);
        findings.atMost(
                "lead-time",
                LEAD_TIME,
                bench.display().shortTimeScale(),
                flowS,
                leadS,
                Double.isNaN(flowS)
                        ? "No flow of the electric pump showed in the line: a worn or dry pump, or a check valve that"
                                + " sticks."
                        : "The pump's flow came after " + bench.display().shortTime(flowS) + ", calibration"
                                + " pump-lead-time allows " + bench.display().shortTime(leadS) + ".");
    }

    /** Time from the contact's closing until the motor has 95 % of its running speed, s; NaN where it never has. */
    private double spinUpS() {
        double runAmps = running.value();
        double limitAmps = runAmps + (1 - SHARE) * (stallAmps - runAmps);
        for (int i = 0; i < samples; i++) {
            if (sampleS[i] > closedS && sampleAmps[i] <= limitAmps && sampleAmps[i] > 0) {
                return sampleS[i] - closedS;
            }
        }
        return Double.NaN;
    }
}
