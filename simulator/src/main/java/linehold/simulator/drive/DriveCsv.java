package linehold.simulator.drive;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import linehold.controller.Range;
import linehold.simulator.build.Gear;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Unit;

/**
 * Writes a drive in our own CSV format, which {@link LogDrive} reads back to the same drive. Rows are linear from one to
 * the next, so rows on the line between them change nothing; they are put in where a step would look like a gap.
 */
public final class DriveCsv {
    private static final Unit RPM = LogMapping.defaultUnit(LogField.MOTOR_SPEED);

    private static final double LONGEST_STEP_S = 1;

    private DriveCsv() {}

    /**
     * Writes a whole drive.
     *
     * @return number of rows written
     * @throws InputException where the file cannot be written
     */
    public static long write(Drive drive, Path file) {
        try (CsvWriter csv = CsvWriter.builder().build(file);
                DriveReader reader = drive.open()) {
            csv.writeRecord(
                    LogField.TIME.ownColumn(),
                    LogField.MOTOR_SPEED.ownColumn(),
                    LogField.MOTOR_TORQUE.ownColumn(),
                    LogField.RANGE.ownColumn(),
                    LogField.GEAR.ownColumn(),
                    LogField.BRAKE.ownColumn(),
                    LogField.KEY.ownColumn(),
                    LogField.OIL_TEMPERATURE.ownColumn(),
                    LogField.BUS_VOLTAGE.ownColumn());
            DriveSample row = new DriveSample();
            DriveSample before = new DriveSample();
            long rows = 0;
            while (reader.read(row)) {
                if (rows > 0) {
                    rows += fill(csv, before, row);
                }
                write(csv, row);
                rows++;
                before.copyFrom(row);
            }
            return rows;
        } catch (IOException | UncheckedIOException e) {
            throw new InputException(file + ": cannot be written: " + e.getMessage(), e);
        }
    }

    /** Rows on the line between two rows, so that no step is long enough to be taken for a gap. */
    private static int fill(CsvWriter csv, DriveSample from, DriveSample to) {
        int steps = (int) Math.ceil((to.timeS - from.timeS) / LONGEST_STEP_S);
        DriveSample between = new DriveSample();
        between.copyFrom(from);
        for (int i = 1; i < steps; i++) {
            double share = (double) i / steps;
            between.timeS = from.timeS + (to.timeS - from.timeS) * share;
            between.shaftSpeedRadPerS =
                    from.shaftSpeedRadPerS + (to.shaftSpeedRadPerS - from.shaftSpeedRadPerS) * share;
            between.motorTorqueNm = from.motorTorqueNm + (to.motorTorqueNm - from.motorTorqueNm) * share;
            write(csv, between);
        }
        return Math.max(0, steps - 1);
    }

    private static void write(CsvWriter csv, DriveSample row) {
        csv.writeRecord(
                number(row.timeS),
                number(RPM.fromSi(row.shaftSpeedRadPerS)),
                number(row.motorTorqueNm),
                word(row.range),
                word(row.gear),
                row.brakeApplied ? "1" : "0",
                row.keyOn ? "1" : "0",
                number(row.oilTemperatureC),
                number(row.busOpenVolts));
    }

    private static String number(double value) {
        return Double.isNaN(value) ? "" : Double.toString(value);
    }

    private static String word(Range range) {
        return range.name().substring(0, 1);
    }

    static String word(Gear gear) {
        return switch (gear) {
            case NEUTRAL -> "N";
            case FIRST -> "1";
            case TOP -> "2";
            case REVERSE -> "R";
        };
    }
}
