package linehold.simulator.build;

/**
 * The car, as far as road load and wheel speed need it.
 *
 * @param massKg mass with load, kg
 * @param tyreRadiusM rolling radius, m
 * @param dragAreaM2 Cd·A, m²
 * @param rollingCoefficient rolling resistance over weight
 * @param airDensityKgPerM3 air density, kg/m³
 * @param motorPeakTorqueNm largest motor torque forward, N·m
 * @param reversePeakTorqueNm largest motor torque in reverse, N·m
 * @param overrunTorqueNm largest braking torque through the motor, N·m; the friction brakes do the rest
 */
public record CarSpec(
        double massKg,
        double tyreRadiusM,
        double dragAreaM2,
        double rollingCoefficient,
        double airDensityKgPerM3,
        double motorPeakTorqueNm,
        double reversePeakTorqueNm,
        double overrunTorqueNm) {}
