package linehold.simulator.circuit;

import linehold.simulator.build.ApplyElementSpec;
import linehold.simulator.build.ApplyElementSpec.Band;
import linehold.simulator.build.ApplyElementSpec.Discs;

/**
 * Torque that a touched apply element can carry.
 *
 * <pre>discs: T = μ·z·r_m·max(0, A·p − F_ret)                  uniform wear (Shigley, clutches)
 * band:  T = r·max(0, A·p − F_ret)·(e^(μθ) − 1)            drum torque helps the servo (capstan relation)
 *        T = r·max(0, A·p − F_ret)·(1 − e^(−μθ))           drum torque works against it
 * F_ret = A·p_touch, so that capacity rises from zero at touch</pre>
 */
public final class ElementCapacity {
    private final double touchPa;
    private final double drivingNmPerPa;
    private final double overrunNmPerPa;
    private final double share;

    public ElementCapacity(ApplyElementSpec spec) {
        touchPa = spec.touchPressurePa();
        share = spec.torqueShare();
        if (spec.friction() instanceof Band) {
            Band band = (Band) spec.friction();
            double wrap = spec.frictionCoefficient() * band.wrapRad();
            double helped = band.drumRadiusM() * spec.pistonAreaM2() * StrictMath.expm1(wrap);
            double opposed = band.drumRadiusM() * spec.pistonAreaM2() * -StrictMath.expm1(-wrap);
            // A band is directional: torque the other way swaps its tight and slack ends.
            drivingNmPerPa = band.drumHelps() ? helped : opposed;
            overrunNmPerPa = band.drumHelps() ? opposed : helped;
        } else {
            Discs discs = (Discs) spec.friction();
            drivingNmPerPa =
                    spec.frictionCoefficient() * discs.frictionFaces() * discs.meanRadiusM() * spec.pistonAreaM2();
            overrunNmPerPa = drivingNmPerPa;
        }
    }

    /**
     * Torque carried at the element, N·m.
     *
     * @param driving whether the motor drives the car (false: the car drives the motor)
     */
    public double torqueNm(double pistonPa, boolean driving) {
        return (driving ? drivingNmPerPa : overrunNmPerPa) * Math.max(0, pistonPa - touchPa);
    }

    /** Capacity over the demand of a motor torque, N·m, of either sign. */
    public double margin(double pistonPa, double motorTorqueNm) {
        return torqueNm(pistonPa, motorTorqueNm >= 0) / (share * Math.abs(motorTorqueNm));
    }

    /** Motor torque that is carried with a safety factor per Pa above touch, driving, N·m/Pa. */
    public double motorTorquePerPa(double safetyFactor) {
        return drivingNmPerPa / (share * safetyFactor);
    }
}
