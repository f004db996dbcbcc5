package linehold.simulator.faults;

import java.util.List;
import linehold.controller.DrivePermission;
import linehold.controller.switching.PumpState;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultKind;

/**
 * One fault (or a pair) in one phase at one oil temperature.
 *
 * @param fault what broke, and when in the drive
 * @param latent a silent fault that was there from the start; null if none
 * @param phase what the car was doing
 * @param drive name of the drive it was tried in
 * @param oilC oil temperature, °C
 * @param claimed whether the build claims to cover it
 * @param outcome what became of it
 * @param noticedAfterS time from the fault to the first trouble code, or the first restriction of drive, that the healthy
 *     run does not have, s; NaN if none; negative where a code for the latent fault was there before
 * @param codes trouble codes raised beyond those of the healthy run, sorted
 * @param state controller state one second after the notice (or after the fault if there was none)
 * @param permission strictest drive permission after the fault where the healthy run has a milder one; granted if none
 * @param lowestPressurePa lowest line pressure under an engaged element after the fault, Pa; infinite if none was engaged
 * @param lowestMargin lowest capacity over the demand of the torque still permitted, after the fault; infinite if none
 * @param slipAfterS time from the fault to the first slip, s; NaN if none
 * @param highestPressurePa highest line pressure after the fault, Pa
 * @param effect one sentence: what it did to the line
 * @param reaction one sentence: what the controller did
 */
public record FaultRun(
        Fault fault,
        FaultKind latent,
        Phase phase,
        String drive,
        double oilC,
        boolean claimed,
        Outcome outcome,
        double noticedAfterS,
        List<String> codes,
        PumpState state,
        DrivePermission permission,
        double lowestPressurePa,
        double lowestMargin,
        double slipAfterS,
        double highestPressurePa,
        String effect,
        String reaction) {
    public FaultRun {
        codes = List.copyOf(codes);
    }
}
