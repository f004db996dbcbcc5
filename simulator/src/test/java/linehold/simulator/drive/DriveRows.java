package linehold.simulator.drive;

import java.util.ArrayList;
import java.util.List;

/** Reads whole drives for tests. */
final class DriveRows {
    private DriveRows() {}

    static List<DriveSample> of(Drive drive) {
        try (DriveReader reader = drive.open()) {
            return of(reader);
        }
    }

    static List<DriveSample> of(DriveReader reader) {
        List<DriveSample> rows = new ArrayList<>();
        DriveSample into = new DriveSample();
        while (reader.read(into)) {
            DriveSample row = new DriveSample();
            row.copyFrom(into);
            rows.add(row);
        }
        return rows;
    }

    /** All fields in one line: time, shaft rad/s, torque, range, gear, brake, key, oil, bus. */
    static String text(DriveSample row) {
        return row.timeS + " " + row.shaftSpeedRadPerS + " " + row.motorTorqueNm + " " + row.range + " " + row.gear
                + (row.brakeApplied ? " brake" : " -") + (row.keyOn ? " on " : " off ") + row.oilTemperatureC + " "
                + row.busOpenVolts;
    }
}
