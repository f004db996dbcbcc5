package linehold.simulator.drivetrain;

import linehold.simulator.build.CarSpec;
import linehold.simulator.build.Gear;
import linehold.simulator.build.GearsSpec;

/**
 * Road speed and shaft speed of a car without a torque converter: the wheels and the motor are tied together by the gear.
 *
 * <p>Signs: road speed is positive forward; the shaft turns forward (positive) in every gear that drives the car the way
 * the gear is meant to, so the ratio of reverse is negative, and a car that rolls back in a forward gear turns the shaft
 * backward.
 */
public final class Kinematics {
    private final double tyreRadiusM;
    private final GearsSpec gears;

    public Kinematics(CarSpec car, GearsSpec gears) {
        this.tyreRadiusM = car.tyreRadiusM();
        this.gears = gears;
    }

    /**
     * Motor turns per wheel turn, signed: negative in reverse. Zero in neutral, where no element ties the motor to the
     * wheels: the motor, and the pump on it, is taken to stand, which is the worst case for the line pressure.
     */
    public double signedRatio(Gear gear) {
        return switch (gear) {
            case FIRST, TOP -> gears.totalRatio(gear);
            case REVERSE -> -gears.totalRatio(gear);
            case NEUTRAL -> 0;
        };
    }

    /** Shaft speed, rad/s, at a road speed in m/s and a signed ratio. */
    public double shaftSpeedRadPerS(double roadSpeedMPerS, double signedRatio) {
        // omega = v / r * i   (rolling without slip; e.g. Gillespie, Fundamentals of Vehicle Dynamics, 1992, from
        // memory)
        return roadSpeedMPerS / tyreRadiusM * signedRatio;
    }

    /** Shaft speed, rad/s, at a road speed in m/s in a gear. */
    public double shaftSpeedRadPerS(double roadSpeedMPerS, Gear gear) {
        return shaftSpeedRadPerS(roadSpeedMPerS, signedRatio(gear));
    }

    /** Road speed, m/s, at a shaft speed in rad/s in a gear that drives; zero in neutral. */
    public double roadSpeedMPerS(double shaftSpeedRadPerS, Gear gear) {
        double ratio = signedRatio(gear);
        return ratio == 0 ? 0 : shaftSpeedRadPerS / ratio * tyreRadiusM;
    }
}
