package linehold.rig.procedure;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import linehold.controller.Range;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.switching.PumpState;

/** The controller switches while the shaft goes slowly up through the window and down again. */
final class HandOverSweep {
    /** Slow enough that pickup and relay do not blur the speeds, rad/s². */
    private static final double SWEEP_RAD_PER_S2 = 100 * Math.PI / 30;

    private static final double ABOVE = 1.3;
    private static final double ALONE_S = 3;
    private static final double AFTER_S = 2;
    /** Speed at which the pump must be on again over the calibration's; assumed: the pickup's resolution in a sweep. */
    private static final double LEAST_SHARE = 0.97;

    private final Bench bench;
    private final Calibration calibration;
    private final boolean senderFitted;
    private final Mean pressure = new Mean();
    private double speedBefore;
    private double onRadPerS;
    private double restSinceS;
    private boolean alone;

    private HandOverSweep(Bench bench) {
        this.bench = bench;
        calibration = bench.calibration();
        senderFitted = calibration.is(Key.SENDER_FITTED);
    }

    static List<Step> steps(Bench bench) {
        HandOverSweep sweep = new HandOverSweep(bench);
        double topRadPerS = ABOVE * sweep.calibration.get(Key.SWITCH_OFF_SPEED);
        String slowly = "slowly, about " + bench.display().acceleration(SWEEP_RAD_PER_S2);
        Shaft up = Shaft.to(topRadPerS, SWEEP_RAD_PER_S2);
        List<Step> steps = new ArrayList<>();
        steps.add(Common.prepare(bench, Range.NEUTRAL));
        steps.add(Common.empty(bench, Shaft.still(Range.NEUTRAL)));
        steps.add(Common.prime(bench, Shaft.still(Range.NEUTRAL)));
        steps.add(Step.of(
                        "Sweep up through the window",
                        Command.CONTROLLER,
                        up,
                        Step.PATIENCE_S,
                        now -> Common.noHandOver(bench, now),
                        sweep::up)
                .telling("Raise the shaft " + slowly + ", to " + bench.display().speed(topRadPerS) + " and hold it."));
        steps.add(Step.of(
                "Internal pump alone",
                Command.CONTROLLER,
                up,
                ALONE_S + Step.PATIENCE_S,
                now -> "The internal pump does not keep the line alone.",
                sweep::alone));
        steps.add(Step.of(
                        "Sweep down through the window",
                        Command.CONTROLLER,
                        Shaft.to(0, SWEEP_RAD_PER_S2),
                        Step.PATIENCE_S,
                        now -> "The shaft has not come to rest; it shows "
                                + bench.display().speed(now.shaftRadPerS()) + ".",
                        sweep::down)
                .telling("Lower the shaft " + slowly + ", to rest."));
        return steps;
    }

    private boolean up(Reading now, Findings findings) {
        if (now.first()) {
            pressure.clear();
        }
        pressure.add(now.pressurePa);
        Common.noCodes(now, findings);
        if (now.decided.state != PumpState.INTERNAL) {
            return false;
        }
        double offRadPerS = calibration.get(Key.SWITCH_OFF_SPEED);
        findings.atLeast(
                "hand-over-speed",
                "Shaft speed at hand-over",
                bench.display().speedScale(),
                now.decided.shaftSpeedRadPerS,
                offRadPerS,
                "Hand-over came at " + bench.display().speed(now.decided.shaftSpeedRadPerS)
                        + ", below the switch-off speed of " + bench.display().speed(offRadPerS) + ".");
        lowest("up", "Lowest line pressure, sweep up", findings);
        return true;
    }

    private void lowest(String key, String title, Findings findings) {
        if (senderFitted) {
            double holdPa = bench.build().limits().holdPressurePa();
            findings.atLeast(
                    "lowest-pressure-" + key,
                    title,
                    bench.display().pressureScale(),
                    pressure.lowest(),
                    holdPa,
                    "Line pressure fell to " + bench.display().pressure(pressure.lowest())
                            + ", below the hold pressure of " + bench.display().pressure(holdPa)
                            + ": a worn pump, a leak, or a window that is too low for this car.");
        }
    }

    private boolean alone(Reading now, Findings findings) {
        if (now.first()) {
            pressure.clear();
        }
        pressure.add(now.pressurePa);
        Common.noCodes(now, findings);
        if (now.decided.state != PumpState.INTERNAL) {
            findings.fail("The controller took the electric pump back at once ("
                    + now.decided.reason.name().toLowerCase(Locale.ROOT).replace('_', ' ')
                    + "), with the shaft at "
                    + bench.display().speed(now.shaftRadPerS()) + " and the line at "
                    + bench.display().pressure(now.pressurePa) + ".");
        }
        if (now.stepS() < ALONE_S) {
            return false;
        }
        lowest("internal", "Lowest line pressure, internal pump alone", findings);
        return true;
    }

    private boolean down(Reading now, Findings findings) {
        if (now.first()) {
            pressure.clear();
            onRadPerS = Double.NaN;
            alone = true;
        }
        pressure.add(now.pressurePa);
        Common.noCodes(now, findings);
        if (alone && now.decided.state != PumpState.INTERNAL) {
            alone = false;
            onRadPerS = speedBefore;
        }
        speedBefore = now.decided.shaftSpeedRadPerS;
        if (now.first() || now.shaftRadPerS() >= calibration.get(Key.STANDSTILL_SPEED)) {
            restSinceS = now.stepS();
        }
        if (now.stepS() - restSinceS < AFTER_S) {
            return false;
        }
        double leastRadPerS = LEAST_SHARE * calibration.get(Key.SWITCH_ON_SPEED);
        findings.atLeast(
                "switch-on-speed",
                "Shaft speed at which the electric pump was on again",
                bench.display().speedScale(),
                onRadPerS,
                leastRadPerS,
                "The electric pump came only at " + bench.display().speed(onRadPerS) + ", calibrated is "
                        + bench.display().speed(calibration.get(Key.SWITCH_ON_SPEED)) + ".");
        lowest("down", "Lowest line pressure, sweep down", findings);
        return true;
    }
}
