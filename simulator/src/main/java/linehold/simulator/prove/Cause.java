package linehold.simulator.prove;

import java.util.Locale;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.Gear;
import linehold.simulator.prove.Loss.Criterion;
import linehold.simulator.run.Engagement;

/** Says in words why a moment was weak, from what the car and the controller were doing then. */
final class Cause {
    /** A pump whose contact closed less than this ago is still spinning up, s (assumed; a warm pump takes 0.1 s). */
    private static final double SPIN_UP_S = 0.3;

    private final Build build;
    private final Display display;

    Cause(Build build) {
        this.build = build;
        display = new Display(build.units());
    }

    /** A clause: what was weak, how much, when, in which gear. */
    String what(Criterion criterion, Snapshot at, double value) {
        String name = switch (criterion) {
            case NEVER_PRIMED, PRESSURE_LOST -> "line pressure ";
            case MARGIN_LOST -> "capacity margin ";
            case ENGAGEMENT_LATE -> "engagement ";
            case DRIVE_REFUSED -> "drive ";
        };
        return name + extent(criterion, at, value);
    }

    /** The same without naming what was weak, to stand behind the name of what was lost. */
    String extent(Criterion criterion, Snapshot at, double value) {
        String when = String.format(Locale.ROOT, " at %.3f s %s", at.timeS(), gear(at.gear()));
        String hold = " (hold pressure " + display.pressure(build.limits().holdPressurePa()) + ")";
        return switch (criterion) {
            case NEVER_PRIMED -> display.pressure(at.linePressurePa()) + hold + when;
            case PRESSURE_LOST -> display.pressure(value) + hold + when;
            case MARGIN_LOST ->
                String.format(
                        Locale.ROOT,
                        "%.2f (safety factor %.2f) under %s%s",
                        value,
                        build.limits().safetyFactor(),
                        display.torque(at.motorTorqueNm()),
                        when);
            case ENGAGEMENT_LATE -> String.format(Locale.ROOT, "not over after %.2f s%s", value, when);
            case DRIVE_REFUSED ->
                String.format(
                        Locale.ROOT,
                        "%s while torque was asked, %.2f s in all, first%s",
                        at.permission().name().toLowerCase(Locale.ROOT),
                        value,
                        when);
        };
    }

    /** Why: a clause that follows the sentence of {@link #what}. */
    String why(Snapshot at) {
        if (at.engagement() == Engagement.ENGAGING) {
            return "an apply element was still filling from the line";
        }
        if (Double.isNaN(at.sinceContactS())) {
            return Double.isNaN(at.sinceCoilS()) ? notAsked(at) : notClosed(at);
        }
        if (at.sinceContactS() < SPIN_UP_S) {
            return spinningUp(at);
        }
        if (at.shaftRadPerS() < 0) {
            return "the shaft turned backward at " + display.speed(-at.shaftRadPerS())
                    + " and drew oil out of the line while the electric pump carried it";
        }
        return at.shaftRadPerS() < build.calibration().get(Key.SWITCH_ON_SPEED)
                ? "the electric pump carried the line"
                        + (at.shaftRadPerS() == 0 ? " alone at standstill" : " at " + display.speed(at.shaftRadPerS()))
                : "both pumps ran";
    }

    private String notAsked(Snapshot at) {
        double switchOn = build.calibration().get(Key.SWITCH_ON_SPEED);
        if (at.shaftRadPerS() >= switchOn) {
            return "the internal pump carried the line alone at " + display.speed(at.shaftRadPerS());
        }
        return falling(at) + " and the electric pump was not yet asked to run: the controller saw "
                + display.speed(at.seenRadPerS()) + " (" + pulses() + ") where the shaft turned at "
                + display.speed(at.shaftRadPerS());
    }

    private String notClosed(Snapshot at) {
        return falling(at) + " and the relay, asked " + milliseconds(at.sinceCoilS()) + " before, had not closed";
    }

    private String spinningUp(Snapshot at) {
        String start = falling(at) + "; the electric pump was still spinning up, its contact having closed "
                + milliseconds(at.sinceContactS()) + " before";
        return Double.isNaN(at.sinceCrossingS()) || at.sinceCrossingS() <= at.sinceContactS()
                ? start
                : start + ", " + milliseconds(at.sinceCrossingS() - at.sinceContactS())
                        + " after the shaft fell below the switch-on speed (" + pulses() + ")";
    }

    private String falling(Snapshot at) {
        if (at.shaftSlopeRadPerS2() < 0) {
            return "the shaft fell at " + display.acceleration(-at.shaftSlopeRadPerS2());
        }
        return Math.abs(at.shaftRadPerS()) < 1 ? "the shaft had stopped" : "the shaft was slow";
    }

    private String pulses() {
        int pulses = build.sensors().pulsesPerRev();
        return pulses + (pulses == 1 ? " pulse" : " pulses") + " per revolution";
    }

    private String milliseconds(double seconds) {
        return display.shortTimeScale().text(seconds);
    }

    private static String gear(Gear gear) {
        return switch (gear) {
            case NEUTRAL -> "in neutral";
            case FIRST -> "in first gear";
            case TOP -> "in top gear";
            case REVERSE -> "in reverse gear";
        };
    }
}
