package linehold.simulator.run;

import linehold.simulator.circuit.VolumeBalance;
import linehold.simulator.drive.RepairCounts;

/**
 * What a finished run has counted.
 *
 * @param durationS length of the drive, s
 * @param relayMoves closings and openings of the contact, bounce not counted
 * @param contactClosedS time with the contact closed, s
 * @param pumpEnergyJ energy taken from the bus by the electric pump, J
 * @param volume where the oil went
 * @param oilExtrapolated whether the viscosity was ever an extrapolation
 * @param repairs what the log reader mended
 */
public record RunTotals(
        double durationS,
        long relayMoves,
        double contactClosedS,
        double pumpEnergyJ,
        VolumeBalance volume,
        boolean oilExtrapolated,
        RepairCounts repairs) {}
