package linehold.simulator.build;

/**
 * The electric pump with its permanent-magnet DC motor.
 *
 * @param displacementM3PerRev displacement, m³/rev
 * @param slipM3 laminar slip coefficient, m³
 * @param motorConstantVsPerRad torque and back-EMF constant K, V·s/rad = N·m/A
 * @param armatureResistanceOhm winding and brushes, Ω
 * @param inertiaKgM2 rotor and gears, kg·m²
 * @param coulombTorqueNm dry friction T_c0, N·m
 * @param viscousTorqueNmS viscous friction b at the reference viscosity, N·m·s
 * @param reliefPa built-in relief pressure at the pump outlet, Pa
 */
public record ElectricPumpSpec(
        double displacementM3PerRev,
        double slipM3,
        double motorConstantVsPerRad,
        double armatureResistanceOhm,
        double inertiaKgM2,
        double coulombTorqueNm,
        double viscousTorqueNmS,
        double reliefPa) {}
