package linehold.simulator.fault;

import linehold.simulator.circuit.Plant;
import linehold.simulator.sensor.SensorFaults;

/**
 * Everything a fault can break.
 *
 * @param plant circuit, pump and relays
 * @param sensors pickup, sender, readbacks, current
 * @param unit control unit, coil wires, supply
 */
public record FaultTargets(Plant plant, SensorFaults sensors, UnitFaults unit) {}
