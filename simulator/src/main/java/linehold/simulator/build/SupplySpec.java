package linehold.simulator.build;

/**
 * The 12 V bus and the cable to the electric pump.
 *
 * @param openVolts open-circuit voltage of the bus, V
 * @param sourceResistanceOhm resistance of battery and converter, Ω
 * @param wireResistanceOhm cable there and back, Ω
 */
public record SupplySpec(double openVolts, double sourceResistanceOhm, double wireResistanceOhm) {}
