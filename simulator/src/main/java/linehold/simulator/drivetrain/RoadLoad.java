package linehold.simulator.drivetrain;

import linehold.simulator.build.CarSpec;
import linehold.simulator.build.Gear;

/**
 * What the road asks of the motor.
 *
 * <p>Longitudinal force balance of a car: inertia, rolling resistance, grade and drag (Gillespie, Fundamentals of Vehicle
 * Dynamics, 1992, chapter 4, from memory). Rotating masses are not counted and driveline losses are left out: both are a
 * few percent, and the torques at which the elements are proved come from the log where it has them. Valid for a car that
 * rolls without slip; a locked wheel is outside of it.
 */
public final class RoadLoad {
    /** Standard acceleration of free fall, m/s² (ISO 80000-3). */
    public static final double GRAVITY_M_PER_S2 = 9.80665;

    private final CarSpec car;

    public RoadLoad(CarSpec car) {
        this.car = car;
    }

    /**
     * Force at the wheels that holds a speed and an acceleration, N, positive forward.
     *
     * @param roadSpeedMPerS road speed, positive forward
     * @param accelerationMPerS2 acceleration, positive forward
     * @param gradeRad slope of the road, positive where forward is uphill
     */
    public double wheelForceN(double roadSpeedMPerS, double accelerationMPerS2, double gradeRad) {
        return car.massKg() * accelerationMPerS2 + resistanceN(roadSpeedMPerS, accelerationMPerS2, gradeRad);
    }

    /** Acceleration of the car left to itself with the motor at zero torque, m/s². */
    public double coastingMPerS2(double roadSpeedMPerS, double gradeRad) {
        return -resistanceN(roadSpeedMPerS, 0, gradeRad) / car.massKg();
    }

    private double resistanceN(double v, double a, double gradeRad) {
        // A car about to move rolls the way it is about to move.
        double direction = Math.signum(v != 0 ? v : a);
        // m * g * (f_r * cos(gamma) + sin(gamma))
        double weightN = car.massKg()
                * GRAVITY_M_PER_S2
                * (direction * car.rollingCoefficient() * Math.cos(gradeRad) + Math.sin(gradeRad));
        // 1/2 * rho * CdA * v^2, against the motion
        double dragN = 0.5 * car.airDensityKgPerM3() * car.dragAreaM2() * v * Math.abs(v);
        return weightN + dragN;
    }

    /**
     * Torque that the road asks of the motor, before any limit, N·m; zero at ratio zero (neutral).
     *
     * @param wheelForceN force at the wheels, N, positive forward
     * @param signedRatio motor turns per wheel turn, negative in reverse
     */
    public double askedTorqueNm(double wheelForceN, double signedRatio) {
        // T = F * r / i
        return signedRatio == 0 ? 0 : wheelForceN * car.tyreRadiusM() / signedRatio;
    }

    /** The part of an asked torque that the motor gives: at most its peak (the reverse limit in reverse), at least overrun. */
    public double limitedTorqueNm(double askedTorqueNm, Gear gear) {
        double peakNm = gear == Gear.REVERSE ? car.reversePeakTorqueNm() : car.motorPeakTorqueNm();
        return Math.max(-car.overrunTorqueNm(), Math.min(peakNm, askedTorqueNm));
    }

    /** Whether slowing down takes more than overrun, so that the friction brakes do the rest and the brake switch is on. */
    public boolean needsBrakes(double askedTorqueNm) {
        return askedTorqueNm < -car.overrunTorqueNm();
    }
}
