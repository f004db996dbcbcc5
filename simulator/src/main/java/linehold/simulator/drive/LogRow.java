package linehold.simulator.drive;

import linehold.controller.Range;
import linehold.simulator.build.Gear;

/** One row of a log in SI units, reused by its reader; NaN and null where the log has not said it yet. */
final class LogRow {
    /** Time as logged, s. */
    double timeS;
    /** Shaft speed, rad/s; NaN where the log has road speed only. */
    double shaftSpeedRadPerS;
    /** Road speed, m/s; NaN where the log has motor speed only. */
    double roadSpeedMPerS;
    /** Motor torque, N·m. */
    double motorTorqueNm;

    double oilTemperatureC;
    double busVolts;
    Range range;
    Gear gear;
    boolean brakeApplied;
    boolean keyOn;

    void copyFrom(LogRow other) {
        timeS = other.timeS;
        shaftSpeedRadPerS = other.shaftSpeedRadPerS;
        roadSpeedMPerS = other.roadSpeedMPerS;
        motorTorqueNm = other.motorTorqueNm;
        oilTemperatureC = other.oilTemperatureC;
        busVolts = other.busVolts;
        range = other.range;
        gear = other.gear;
        brakeApplied = other.brakeApplied;
        keyOn = other.keyOn;
    }
}
