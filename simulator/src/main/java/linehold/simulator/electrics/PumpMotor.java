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

    private final double constantVsPerRad;
    private final double inertiaKgM2;
    private final double coulombNm;
    private final double viscousAtReferenceNmS;
    private final double displacementM3PerRad;
    private final double circuitResistanceOhm;
    private final double sourceResistanceOhm;
    private double contactOhm;
    private double resistanceOhm;
    private double delivery = 1;
    private double viscousNmS;

    public PumpMotor(ElectricPumpSpec pump, SupplySpec supply, double contactResistanceOhm) {
        constantVsPerRad = pump.motorConstantVsPerRad();
        inertiaKgM2 = pump.inertiaKgM2();
        coulombNm = pump.coulombTorqueNm();
        viscousAtReferenceNmS = pump.viscousTorqueNmS();
        displacementM3PerRad = pump.displacementM3PerRev() / (2 * Math.PI);
        circuitResistanceOhm = pump.armatureResistanceOhm() + supply.wireResistanceOhm() + supply.sourceResistanceOhm();
        sourceResistanceOhm = supply.sourceResistanceOhm();
        setContactResistance(contactResistanceOhm);
    }

    /** A worn contact raises this, Ω. */
    public void setContactResistance(double contactResistanceOhm) {
        contactOhm = contactResistanceOhm;
        resistanceOhm = circuitResistanceOhm + contactResistanceOhm;
    }

    /** Voltage of the bus less the drop over the closed contact, V. */
    public double voltsBehindContact(double busOpenVolts, double currentAmps) {
        return busVolts(busOpenVolts, currentAmps) - contactOhm * currentAmps;
    }

    /** Share of its displacement that the pump delivers; the load on the motor follows. */
    public void setDelivery(double share) {
        delivery = share;
    }

    /** Viscous friction follows the oil's viscosity over the one it was measured at. */
    public void setViscosityRatio(double viscosityOverReference) {
        viscousNmS = viscousAtReferenceNmS * viscosityOverReference;
    }

    /** Motor current, A. */
    public double currentAmps(boolean contactClosed, double busOpenVolts, double speedRadPerS) {
        return contactClosed ? Math.max(0, (busOpenVolts - constantVsPerRad * speedRadPerS) / resistanceOhm) : 0;
    }

    /** Bus voltage under this current, V. */
    public double busVolts(double busOpenVolts, double currentAmps) {
        return busOpenVolts - sourceResistanceOhm * currentAmps;
    }

    /** Voltage the turning motor makes by itself, V. */
    public double backEmfVolts(double speedRadPerS) {
        return constantVsPerRad * speedRadPerS;
    }

    /** Angular acceleration, rad/s². */
    public double acceleration(double currentAmps, double outletPa, double speedRadPerS) {
        double torqueNm = constantVsPerRad * currentAmps
                - delivery * displacementM3PerRad * outletPa
                - coulombNm * Math.min(1, speedRadPerS / DRY_FRICTION_FULL_RAD_PER_S)
                - viscousNmS * speedRadPerS;
        return torqueNm / inertiaKgM2;
    }

    /** Derivative of {@link #acceleration} by speed without the outlet pressure's part, 1/s. */
    public double accelerationBySpeed(double currentAmps, double speedRadPerS) {
        double backEmf = currentAmps > 0 ? constantVsPerRad * constantVsPerRad / resistanceOhm : 0;
        double dry = speedRadPerS < DRY_FRICTION_FULL_RAD_PER_S ? coulombNm / DRY_FRICTION_FULL_RAD_PER_S : 0;
        return -(backEmf + dry + viscousNmS) / inertiaKgM2;
    }

    /** Derivative of {@link #acceleration} by outlet pressure, rad/(s²·Pa). */
    public double accelerationByOutlet() {
        return -delivery * displacementM3PerRad / inertiaKgM2;
    }

    /** Derivative of {@link #acceleration} by bus voltage while current flows, rad/(s²·V). */
    public double accelerationByVolts(double currentAmps) {
        return currentAmps > 0 ? constantVsPerRad / (resistanceOhm * inertiaKgM2) : 0;
    }
}
