package linehold.simulator.drivetrain;

import linehold.controller.Range;
import linehold.simulator.build.Gear;
import linehold.simulator.build.GearsSpec;

/**
 * Which gear the transmission commands: by range, and in drive by motor speed, with the hysteresis between the speed for
 * up in first and the speed for down in top. Holds the gear it is in.
 */
public final class ShiftSchedule {
    private final double upRadPerS;
    private final double downRadPerS;
    private Gear gear = Gear.NEUTRAL;

    public ShiftSchedule(GearsSpec gears) {
        this.upRadPerS = gears.shiftUpRadPerS();
        this.downRadPerS = gears.shiftDownRadPerS();
    }

    public Gear gear() {
        return gear;
    }

    /** Takes the gear of a range at standstill: first in drive. */
    public Gear select(Range range) {
        gear = switch (range) {
            case PARK, NEUTRAL -> Gear.NEUTRAL;
            case REVERSE -> Gear.REVERSE;
            case DRIVE -> gear == Gear.TOP ? Gear.TOP : Gear.FIRST;
        };
        return gear;
    }

    /** Takes the gear that a log states. */
    public void follow(Gear stated) {
        gear = stated;
    }

    /**
     * Shifts where the speed asks for it.
     *
     * @param shaftSpeedRadPerS motor speed in the present gear, rad/s
     * @return whether the gear has changed
     */
    public boolean update(double shaftSpeedRadPerS) {
        if (gear == Gear.FIRST && shaftSpeedRadPerS >= upRadPerS) {
            gear = Gear.TOP;
            return true;
        }
        if (gear == Gear.TOP && shaftSpeedRadPerS <= downRadPerS) {
            gear = Gear.FIRST;
            return true;
        }
        return false;
    }

    /** Motor speed at which the present gear is left, rad/s; NaN in a gear that is left by the lever only. */
    public double leavingSpeedRadPerS() {
        return switch (gear) {
            case FIRST -> upRadPerS;
            case TOP -> downRadPerS;
            case REVERSE, NEUTRAL -> Double.NaN;
        };
    }
}
