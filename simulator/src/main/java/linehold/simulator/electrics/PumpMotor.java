package linehold.simulator.electrics;

import linehold.simulator.build.ElectricPumpSpec;
import linehold.simulator.build.SupplySpec;

/**
 * The pump's permanent-magnet DC motor on its cable. Inductance is left out: L/R is a fraction of a millisecond, far
 * below the mechanical time constant.
 *
 * <pre>i = max(0, (V_oc − K·w)/(R_arm + R_wire + R_contact + R_src))     contact closed, else 0
 * J·dw/dt = K·i − D·p_out − T_c(w) − b·(μ/μ_ref)·w,   T_c(w) = T_c0·min(1, w/1 rad/s)</pre>
 *
 * Source: the standard DC motor equations with Kt = Ke in SI units (e.g. Kluever, Dynamic Systems, ch. 10).
 */
public final class PumpMotor {
    /** Speed below which dry friction is proportional to speed, rad/s: keeps a stopping pump from reversing. */
    private static final double DRY_FRICTION_FULL_RAD_PER_S = 1;

    private final ElectricPumpSpec pump;
    private final double displacementM3PerRad;
    private final double circuitResistanceOhm;
    private final double sourceResistanceOhm;
    private double resistanceOhm;
    private double viscousNmS;

    public PumpMotor(ElectricPumpSpec pump, SupplySpec supply, double contactResistanceOhm) {
        this.pump = pump;
        displacementM3PerRad = pump.displacementM3PerRev() / (2 * Math.PI);
        circuitResistanceOhm = pump.armatureResistanceOhm() + supply.wireResistanceOhm() + supply.sourceResistanceOhm();
        sourceResistanceOhm = supply.sourceResistanceOhm();
        setContactResistance(contactResistanceOhm);
    }

    /** A worn contact raises this, Ω. */
    public void setContactResistance(double contactResistanceOhm) {
        resistanceOhm = circuitResistanceOhm + contactResistanceOhm;
    }

    /** Viscous friction follows the oil's viscosity over the one it was measured at. */
    public void setViscosityRatio(double viscosityOverReference) {
        viscousNmS = pump.viscousTorqueNmS() * viscosityOverReference;
    }

    /** Motor current, A. */
    public double currentAmps(boolean contactClosed, double busOpenVolts, double speedRadPerS) {
        return contactClosed
                ? Math.max(0, (busOpenVolts - pump.motorConstantVsPerRad() * speedRadPerS) / resistanceOhm)
                : 0;
    }

    /** Bus voltage under this current, V. */
    public double busVolts(double busOpenVolts, double currentAmps) {
        return busOpenVolts - sourceResistanceOhm * currentAmps;
    }

    /** Voltage the turning motor makes by itself, V. */
    public double backEmfVolts(double speedRadPerS) {
        return pump.motorConstantVsPerRad() * speedRadPerS;
    }

    /** Angular acceleration, rad/s². */
    public double acceleration(double currentAmps, double outletPa, double speedRadPerS) {
        double torqueNm = pump.motorConstantVsPerRad() * currentAmps
                - displacementM3PerRad * outletPa
                - pump.coulombTorqueNm() * Math.min(1, speedRadPerS / DRY_FRICTION_FULL_RAD_PER_S)
                - viscousNmS * speedRadPerS;
        return torqueNm / pump.inertiaKgM2();
    }

    /** Derivative of {@link #acceleration} by speed without the outlet pressure's part, 1/s. */
    public double accelerationBySpeed(double currentAmps, double speedRadPerS) {
        double k = pump.motorConstantVsPerRad();
        double backEmf = currentAmps > 0 ? k * k / resistanceOhm : 0;
        double dry =
                speedRadPerS < DRY_FRICTION_FULL_RAD_PER_S ? pump.coulombTorqueNm() / DRY_FRICTION_FULL_RAD_PER_S : 0;
        return -(backEmf + dry + viscousNmS) / pump.inertiaKgM2();
    }

    /** Derivative of {@link #acceleration} by outlet pressure, rad/(s²·Pa). */
    public double accelerationByOutlet() {
        return -displacementM3PerRad / pump.inertiaKgM2();
    }

    /** Derivative of {@link #acceleration} by bus voltage while current flows, rad/(s²·V). */
    public double accelerationByVolts(double currentAmps) {
        return currentAmps > 0 ? pump.motorConstantVsPerRad() / (resistanceOhm * pump.inertiaKgM2()) : 0;
    }
}
