package linehold.simulator.build;

/**
 * The transmission oil (section "Oil" of docs/model.md).
 *
 * @param kinematicViscosity40M2PerS kinematic viscosity at 40 °C, m²/s
 * @param kinematicViscosity100M2PerS kinematic viscosity at 100 °C, m²/s
 * @param pourPointC temperature below which the viscosity is extrapolated and flagged, °C
 * @param density15KgPerM3 density at 15 °C, kg/m³
 * @param expansionPerK thermal expansion, 1/K
 * @param bulkModulusPa bulk modulus of the oil without air, Pa
 * @param entrainedAir volume fraction of entrained air at atmospheric pressure
 */
public record OilSpec(
        double kinematicViscosity40M2PerS,
        double kinematicViscosity100M2PerS,
        double pourPointC,
        double density15KgPerM3,
        double expansionPerK,
        double bulkModulusPa,
        double entrainedAir) {}
