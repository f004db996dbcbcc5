package linehold.simulator.prove;

import linehold.controller.DrivePermission;
import linehold.controller.switching.PumpState;
import linehold.simulator.build.Gear;
import linehold.simulator.run.Engagement;
import linehold.simulator.run.Moment;

/**
 * What one moment looked like, kept to name its cause.
 *
 * @param sinceCoilS time since the pump was last asked to run, s; NaN while it is not
 * @param sinceContactS time since the pump's contact last closed, s; NaN while it is open
 * @param sinceCrossingS time since the true speed last fell below the switch-on speed, s; NaN while above
 */
record Snapshot(
        double timeS,
        Gear gear,
        Engagement engagement,
        double linePressurePa,
        double motorTorqueNm,
        double shaftRadPerS,
        double shaftSlopeRadPerS2,
        double seenRadPerS,
        double sinceCoilS,
        double sinceContactS,
        double sinceCrossingS,
        PumpState state,
        DrivePermission permission) {

    static Snapshot of(Moment moment, double coilAtS, double contactAtS, double crossingAtS) {
        return new Snapshot(
                moment.timeS,
                moment.gear,
                moment.engagement,
                moment.lowestPressurePa,
                moment.motorTorqueNm,
                moment.shaftRadPerS,
                moment.shaftSlopeRadPerS2,
                moment.outputs.shaftSpeedRadPerS,
                moment.timeS - coilAtS,
                moment.timeS - contactAtS,
                moment.timeS - crossingAtS,
                moment.outputs.state,
                moment.outputs.permission);
    }
}
