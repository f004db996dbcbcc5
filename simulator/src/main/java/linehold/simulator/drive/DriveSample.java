package linehold.simulator.drive;

import linehold.controller.Range;
import linehold.simulator.build.Gear;

/**
 * One row of a drive, reused by its reader. Shaft speed and torque are linear to the next row; range, gear, brake and
 * key hold until the next row.
 */
public final class DriveSample {
    /** Time since the start of the drive, s; strictly growing from row to row, the first is 0. */
    public double timeS;
    /** Motor (and internal pump) shaft speed, rad/s; negative while the car rolls back against the gear. */
    public double shaftSpeedRadPerS;
    /** Motor torque the drive asks for, N·m; negative on overrun. */
    public double motorTorqueNm;

    public Range range = Range.PARK;
    public Gear gear = Gear.NEUTRAL;
    public boolean brakeApplied;
    public boolean keyOn;
    /** Oil temperature, °C; NaN where the drive does not say: then the run's own temperature counts. */
    public double oilTemperatureC = Double.NaN;
    /** Open-circuit bus voltage, V; NaN where the drive does not say: then the build's own counts. */
    public double busOpenVolts = Double.NaN;

    public void copyFrom(DriveSample other) {
        timeS = other.timeS;
        shaftSpeedRadPerS = other.shaftSpeedRadPerS;
        motorTorqueNm = other.motorTorqueNm;
        range = other.range;
        gear = other.gear;
        brakeApplied = other.brakeApplied;
        keyOn = other.keyOn;
        oilTemperatureC = other.oilTemperatureC;
        busOpenVolts = other.busOpenVolts;
    }
}
