package linehold.simulator.build;

/**
 * Check valve and hose between electric pump and line.
 *
 * @param crackPa cracking pressure of the check valve, Pa
 * @param laminarPaSPerM3 laminar resistance at the reference viscosity, Pa·s/m³, above zero
 * @param turbulentPaS2PerM6 turbulent resistance at the reference density, Pa·s²/m⁶
 * @param referenceViscosityPaS viscosity at which laminar resistance and viscous pump torque were measured, Pa·s
 * @param referenceDensityKgPerM3 density at which the turbulent resistance was measured, kg/m³
 * @param failedOpenAreaM2 Cd·A of the check valve when it has failed open, m²
 */
public record HoseSpec(
        double crackPa,
        double laminarPaSPerM3,
        double turbulentPaS2PerM6,
        double referenceViscosityPaS,
        double referenceDensityKgPerM3,
        double failedOpenAreaM2) {}
