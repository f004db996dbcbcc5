package linehold.rig.procedure;

import java.util.List;
import linehold.controller.Range;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.switching.PumpState;

/** The shaft stops as fast as can be while the internal pump carries the line alone. */
final class PanicStop {
    private static final double ABOVE = 1.5;
    private static final double ALONE_S = 1;
    private static final double AFTER_S = 3;
    /** What a drill with a brake, or a hand with a belt, may reach, rad/s²; assumed. */
    private static final double STOP_RAD_PER_S2 = 10_000 * Math.PI / 30;

    private final Bench bench;
    private final Calibration calibration;
    private final boolean senderFitted;
    private double fromRadPerS;
    private double fallsFromS;
    private double stoodS;
    private double restSinceS;
    private double onS;
    private double closedS;
    private double lowestPa;

    private PanicStop(Bench bench) {
        this.bench = bench;
        calibration = bench.calibration();
        senderFitted = calibration.is(Key.SENDER_FITTED);
    }

    static List<Step> steps(Bench bench) {
        PanicStop stop = new PanicStop(bench);
        double topRadPerS = ABOVE * stop.calibration.get(Key.SWITCH_OFF_SPEED);
        String top = bench.display().speed(topRadPerS);
        return List.of(
                Common.prepare(bench, Range.NEUTRAL),
                Common.empty(bench, Shaft.still(Range.NEUTRAL)),
                Common.prime(bench, Shaft.still(Range.NEUTRAL)),
                Step.of(
                                "Up to speed",
                                Command.CONTROLLER,
                                Shaft.at(topRadPerS),
                                Step.PATIENCE_S,
                                now -> Common.noHandOver(bench, now),
                                stop::up)
                        .telling("Bring the shaft to about " + top
                                + " and hold it until the internal pump carries alone."),
                Step.of(
                                "Stop",
                                Command.CONTROLLER,
                                Shaft.to(0, STOP_RAD_PER_S2),
                                Step.PATIENCE_S,
                                now -> "The shaft has not come to rest; it shows "
                                        + bench.display().speed(now.shaftRadPerS()) + ".",
                                stop::stopped)
                        .telling("Now stop the shaft as fast as you can."));
    }

    private boolean up(Reading now, Findings findings) {
        Common.noCodes(now, findings);
        if (now.first() || now.decided.state != PumpState.INTERNAL) {
            restSinceS = now.stepS();
        }
        return now.stepS() - restSinceS >= ALONE_S;
    }

    private boolean stopped(Reading now, Findings findings) {
        if (now.first()) {
            fromRadPerS = now.shaftRadPerS();
            fallsFromS = 0;
            stoodS = Double.NaN;
            onS = Double.NaN;
            closedS = Double.NaN;
            lowestPa = Double.POSITIVE_INFINITY;
        }
        lowestPa = Math.min(lowestPa, now.pressurePa);
        boolean standing = now.shaftRadPerS() < calibration.get(Key.STANDSTILL_SPEED);
        if (now.shaftRadPerS() > 0.95 * fromRadPerS) {
            fallsFromS = now.stepS();
        }
        if (Double.isNaN(stoodS) && standing) {
            stoodS = now.stepS();
        }
        if (Double.isNaN(onS) && now.decided.state != PumpState.INTERNAL) {
            onS = now.stepS();
        }
        if (Double.isNaN(closedS) && !Double.isNaN(onS) && now.closed(now.mainVolts)) {
            closedS = now.stepS();
        }
        Common.noCodes(now, findings);
        if (now.first() || !standing) {
            restSinceS = now.stepS();
        }
        if (findings.failure() == null && now.stepS() - restSinceS < AFTER_S) {
            return false;
        }
        judge(findings);
        return true;
    }

    private void judge(Findings findings) {
        findings.info("speed-before", "Shaft speed before", bench.display().speedScale(), fromRadPerS);
        double fallRadPerS2 =
                (0.95 * fromRadPerS - calibration.get(Key.STANDSTILL_SPEED)) / Math.max(1e-3, stoodS - fallsFromS);
        findings.info("deceleration", "Mean deceleration", bench.display().accelerationScale(), fallRadPerS2);
        findings.atMost(
                "relay-time",
                "From coil to voltage behind the contact",
                bench.display().shortTimeScale(),
                closedS - onS,
                calibration.get(Key.RELAY_READBACK_TIME),
                "The main contact did not close in time during the stop: run the procedure wiring.");
        if (senderFitted) {
            double holdPa = bench.build().limits().holdPressurePa();
            findings.atLeast(
                    "lowest-pressure",
                    "Lowest line pressure",
                    bench.display().pressureScale(),
                    lowestPa,
                    holdPa,
                    "Line pressure fell to " + bench.display().pressure(lowestPa) + ", below the hold pressure of "
                            + bench.display().pressure(holdPa)
                            + ": the electric pump came too late or too weak; linehold window tells what would help.");
        }
    }
}
