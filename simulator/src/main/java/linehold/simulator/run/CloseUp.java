package linehold.simulator.run;

import linehold.controller.DrivePermission;
import linehold.controller.switching.PumpState;
import linehold.simulator.build.Gear;

/**
 * Two seconds of a run at full rate around a moment of interest. All arrays have the same length.
 *
 * @param momentS the moment, s
 * @param timeS time of each row, s
 * @param linePressurePa line pressure, Pa
 * @param elementPressurePa piston pressure of the commanded element, Pa; NaN where none is commanded
 * @param shaftSpeedRadPerS shaft speed, rad/s, signed
 * @param seenSpeedRadPerS shaft speed as the controller sees it, rad/s
 * @param pumpSpeedRadPerS electric pump speed, rad/s
 * @param coil main relay coil energised
 * @param contact electric pump's contact closed
 * @param gear commanded gear
 * @param engagement state of the commanded element
 * @param state controller state
 * @param permission drive permission
 */
public record CloseUp(
        double momentS,
        double[] timeS,
        double[] linePressurePa,
        double[] elementPressurePa,
        double[] shaftSpeedRadPerS,
        double[] seenSpeedRadPerS,
        double[] pumpSpeedRadPerS,
        boolean[] coil,
        boolean[] contact,
        Gear[] gear,
        Engagement[] engagement,
        PumpState[] state,
        DrivePermission[] permission) {}
