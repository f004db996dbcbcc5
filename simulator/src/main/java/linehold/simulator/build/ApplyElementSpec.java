package linehold.simulator.build;

/**
 * One band or disc clutch: its piston and its friction.
 *
 * @param strokeVolumeM3 oil that moves the piston until it touches, m³
 * @param complianceM3PerPa give of the pressed pack, m³/Pa
 * @param returnPressurePa piston pressure at which the return spring starts to move, Pa
 * @param touchPressurePa piston pressure at touch, Pa
 * @param pistonAreaM2 piston area, m²
 * @param frictionCoefficient friction coefficient of the lining in oil
 * @param torqueShare element torque over motor torque in its gear
 * @param friction band or disc geometry
 */
public record ApplyElementSpec(
        double strokeVolumeM3,
        double complianceM3PerPa,
        double returnPressurePa,
        double touchPressurePa,
        double pistonAreaM2,
        double frictionCoefficient,
        double torqueShare,
        Friction friction) {

    /** What turns piston force into torque. */
    public sealed interface Friction permits Band, Discs {}

    /**
     * @param drumRadiusM drum radius, m
     * @param wrapRad angle of wrap, rad
     * @param drumHelps whether drum torque helps the servo when the motor drives the car
     */
    public record Band(double drumRadiusM, double wrapRad, boolean drumHelps) implements Friction {}

    /**
     * @param frictionFaces number of friction faces
     * @param meanRadiusM uniform-wear mean radius, m
     */
    public record Discs(int frictionFaces, double meanRadiusM) implements Friction {}
}
