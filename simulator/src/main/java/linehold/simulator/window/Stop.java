package linehold.simulator.window;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.Range;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Gear;
import linehold.simulator.drive.DriveSample;
import linehold.simulator.drive.Manoeuvres;
import linehold.simulator.drive.RowDrive;

/**
 * A stop from a steady speed at a constant rate after the brakes have built up, one gear engaged throughout, as a drive of
 * a few seconds: just long enough before it for the electric pump to have handed over and come to rest.
 *
 * <p>Where the pickup's teeth stand when the shaft falls below the switch-on speed, and where the controller's tick
 * falls, decides how late the controller sees it; both are set here, so that a search meets the worst case on purpose and
 * not by luck.
 *
 * @param drive the drive
 * @param startS when the brakes are applied, s
 * @param standS when the shaft has come to rest, or has rolled back for a while, s
 */
record Stop(RowDrive drive, double startS, double standS) {
    /** Standing at first, so that the shaft's start is no edge, s. */
    private static final double FIRST_S = 0.05;
    /** The shaft is brought to speed at once: what comes before the stop is not judged, s. */
    private static final double RUN_UP_S = 0.02;
    /** After hand-over: the pump coasts to rest in less than half of it, s (assumed; 0.3 s for the demonstration pump). */
    private static final double REST_S = 0.8;
    /** Standing after the stop: long enough for the electric pump to have taken over or failed to, s. */
    private static final double AFTER_S = 0.8;

    /** Rolling back lasts longer than the line takes to settle, s (assumed). */
    private static final double ROLLING_S = 3;

    private static final int BUILD_UP_STEPS = 6;
    /** The steady speed before the stop exceeds by this what the pump needs to hand over. */
    private static final double ABOVE_HAND_OVER = 1.05;
    /** The controller's tick falls this much before the moment it could have seen the crossing, s. */
    private static final double MISSED_S = 1e-4;

    /**
     * @param rateRadPerS2 rate at which the shaft falls, rad/s², above zero
     * @param calibration whose switch-on and switch-off speed and pickup the stop is laid out for
     * @param handOverRadPerS lowest speed at which the internal pump makes the hand-over pressure, rad/s; NaN where none
     *     does, and the electric pump then never rests
     * @param phase where the crossing of the switch-on speed lies between two teeth, 0 to 1; see {@link #latestPhase}
     * @param braking whether the brake switch shows the stop
     */
    static Stop of(
            double rateRadPerS2,
            Gear gear,
            Calibration calibration,
            double handOverRadPerS,
            double phase,
            boolean braking) {
        double switchOn = calibration.get(Key.SWITCH_ON_SPEED);
        double pitch = 2 * Math.PI / calibration.get(Key.PULSES_PER_REVOLUTION);
        double buildUpS = Manoeuvres.BRAKE_BUILD_UP_S;
        double fallen = rateRadPerS2 * buildUpS / 2;
        double switchOff = calibration.get(Key.SWITCH_OFF_SPEED);
        double cruise = ABOVE_HAND_OVER * (handOverRadPerS > switchOff ? handOverRadPerS : switchOff) + fallen;
        double steadyS = calibration.get(Key.MINIMUM_RUN_TIME) + calibration.get(Key.SWITCH_OFF_CONFIRM_TIME) + REST_S;

        // Angle from rest to the crossing but for the part of the steady speed that sets the teeth.
        double fallS = (cruise - fallen - switchOn) / rateRadPerS2;
        double angle = cruise * (RUN_UP_S / 2 + steadyS)
                + buildUpAngle(cruise, rateRadPerS2)
                + fallS * (cruise - fallen + switchOn) / 2;
        // The pickup starts half a pitch after a tooth.
        double missing = phase - (angle / pitch + 0.5);
        steadyS += (missing - Math.floor(missing)) * pitch / cruise;

        double crossingS = FIRST_S + RUN_UP_S + steadyS + buildUpS + fallS;
        double seenS = crossingS + seenAfterS(switchOn, rateRadPerS2, pitch, phase);
        double periodS = calibration.get(Key.CONTROL_PERIOD);
        double firstS = FIRST_S + periodS - (seenS - MISSED_S) % periodS;

        Rows rows = new Rows(gear);
        rows.add(0, 0);
        rows.add(firstS, 0);
        rows.add(firstS + RUN_UP_S, cruise);
        double startS = firstS + RUN_UP_S + steadyS;
        rows.braking = braking;
        rows.add(startS, cruise);
        for (int i = 1; i <= BUILD_UP_STEPS; i++) {
            double part = (double) i / BUILD_UP_STEPS;
            rows.add(startS + part * buildUpS, cruise - fallen * part * part);
        }
        double standS = startS + buildUpS + (cruise - fallen) / rateRadPerS2;
        rows.add(standS, 0);
        rows.add(standS + AFTER_S, 0);
        return new Stop(new RowDrive("stop", "invented: a stop at a constant rate", 0, rows.list), startS, standS);
    }

    /** The same stop, but the shaft falls on at its rate to a speed backward and stays there. */
    Stop rollingBack(double rateRadPerS2, double backwardRadPerS) {
        List<DriveSample> rows =
                new ArrayList<>(drive.rows().subList(0, drive.rows().size() - 2));
        Rows turned = new Rows(rows.get(0).gear);
        double backS = standS + backwardRadPerS / rateRadPerS2;
        turned.add(standS, 0);
        turned.add(backS, -backwardRadPerS);
        turned.add(backS + ROLLING_S + AFTER_S, -backwardRadPerS);
        rows.addAll(turned.list);
        return new Stop(
                new RowDrive("roll-back", "invented: a stop uphill, and rolling back", 0, rows),
                startS,
                backS + ROLLING_S);
    }

    /** Angle turned while the brakes build up, straight lines between the rows, rad. */
    private static double buildUpAngle(double cruise, double rateRadPerS2) {
        double buildUpS = Manoeuvres.BRAKE_BUILD_UP_S;
        double fallen = rateRadPerS2 * buildUpS / 2;
        double sum = 0;
        for (int i = 1; i <= BUILD_UP_STEPS; i++) {
            double before = (i - 1.0) / BUILD_UP_STEPS;
            double part = (double) i / BUILD_UP_STEPS;
            sum += cruise - fallen * (before * before + part * part) / 2;
        }
        return sum * buildUpS / BUILD_UP_STEPS;
    }

    /**
     * When the controller can know that the shaft has fallen below a speed, after it has, s (LH-SP-1). A speed is a mean
     * over one pulse, so an edge that comes up to half a pulse after the crossing may still show the speed above it; then
     * only the absence of the next edge, one pulse later, tells.
     *
     * <pre>last edge before: φ·p = n·ε + a·ε²/2     first edge after: (1 − φ)·p = n·δ − a·δ²/2
     * mean over them at least n, p/(δ + ε) ≥ n: seen at δ + p/n, else at p/n − ε</pre>
     */
    static double seenAfterS(double speedRadPerS, double rateRadPerS2, double pitchRad, double phase) {
        double pulseS = pitchRad / speedRadPerS;
        double n = speedRadPerS;
        double a = rateRadPerS2;
        double beforeS = (Math.sqrt(n * n + 2 * a * phase * pitchRad) - n) / a;
        double square = n * n - 2 * a * (1 - phase) * pitchRad;
        double afterS = square < 0 ? Double.POSITIVE_INFINITY : (n - Math.sqrt(square)) / a;
        return afterS + beforeS <= pulseS ? afterS + pulseS : pulseS - beforeS;
    }

    /**
     * The phase at which the controller sees the crossing latest: the pulse around it has its middle at the crossing in
     * time, so that its mean is just the switch-on speed.
     *
     * <pre>φ = 1/2 + a·T/(8·n),  T = p/n</pre>
     */
    static double latestPhase(double speedRadPerS, double rateRadPerS2, double pitchRad) {
        double pulseS = pitchRad / speedRadPerS;
        return Math.min(0.99, 0.5 + rateRadPerS2 * pulseS / (8 * speedRadPerS) + 0.01);
    }

    private static final class Rows {
        private final List<DriveSample> list = new ArrayList<>();
        private final Gear gear;
        private boolean braking;

        Rows(Gear gear) {
            this.gear = gear;
        }

        void add(double timeS, double shaftRadPerS) {
            DriveSample row = new DriveSample();
            row.timeS = timeS;
            row.shaftSpeedRadPerS = shaftRadPerS;
            row.range = gear == Gear.REVERSE ? Range.REVERSE : Range.DRIVE;
            row.gear = gear;
            row.keyOn = true;
            row.brakeApplied = braking;
            list.add(row);
        }
    }
}
