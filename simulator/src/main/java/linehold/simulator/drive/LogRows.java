package linehold.simulator.drive;

import java.nio.file.Path;
import linehold.controller.Range;
import linehold.simulator.build.Gear;

/**
 * The rows of a log in order of time: duplicate and backward time stamps mended and counted, silent cells filled from the
 * row before, a gap that is too long ending the log. What cannot be mended without guessing is refused.
 */
final class LogRows implements AutoCloseable {
    /** So many rows in a row with an earlier time mean that the clock was set back, not that rows were swapped. */
    static final int MOST_BACKWARD_ROWS = 100;

    private static final Range[] RANGES = Range.values();
    private static final Gear[] GEARS = Gear.values();

    private final LogLines lines;
    private final boolean hasMotorSpeed;
    private final double maxGapS;

    private final LogRow held = new LogRow();
    private final LogRow pending = new LogRow();
    private boolean hasPending;
    private boolean ended;
    private int backwardInARow;
    private long lastLine;

    private final LogField[] mapped;
    private final boolean[] seen = new boolean[LogField.COUNT];

    private long duplicateRows;
    private long backwardRows;
    private long emptyCells;
    private double endedByGapAtS = Double.NaN;

    LogRows(Path file, LogMapping mapping, LogHeader header, long firstLine) {
        this.lines = new LogLines(file, mapping, header, firstLine);
        this.hasMotorSpeed = header.has(LogField.MOTOR_SPEED);
        this.mapped = header.fields().toArray(new LogField[0]);
        this.maxGapS = mapping.maxGapS();
        held.shaftSpeedRadPerS = Double.NaN;
        held.roadSpeedMPerS = Double.NaN;
        held.motorTorqueNm = 0;
        held.oilTemperatureC = Double.NaN;
        held.busVolts = Double.NaN;
        held.keyOn = true;
    }

    /** Fills the next row; false when there is none. */
    boolean next(LogRow into) {
        if (ended) {
            return false;
        }
        while (readHeld()) {
            if (!hasPending) {
                hasPending = true;
                pending.copyFrom(held);
                continue;
            }
            double step = held.timeS - pending.timeS;
            if (step > maxGapS) {
                endedByGapAtS = pending.timeS;
                break;
            }
            if (step > 0) {
                backwardInARow = 0;
                into.copyFrom(pending);
                pending.copyFrom(held);
                return true;
            }
            if (step == 0) {
                duplicateRows++;
                pending.copyFrom(held);
            } else {
                countBackward();
            }
        }
        ended = true;
        if (hasPending) {
            into.copyFrom(pending);
        }
        return hasPending;
    }

    private void countBackward() {
        backwardRows++;
        double backAtS = held.timeS;
        held.copyFrom(pending);
        if (++backwardInARow > MOST_BACKWARD_ROWS) {
            throw lines.fault(
                    lastLine,
                    LogField.TIME,
                    Double.toString(backAtS) + " s",
                    "time to grow: it runs back behind " + pending.timeS + " s for more than " + MOST_BACKWARD_ROWS
                            + " rows, so split the log where its clock was set");
        }
    }

    /** Reads the next line that has a time and a speed into {@code held}; other cells keep what they had. */
    private boolean readHeld() {
        for (LogCells cells = lines.next(); cells != null; cells = lines.next()) {
            lastLine = cells.line;
            double[] value = cells.value;
            boolean bad = cells.badField != null || Double.isNaN(value[LogField.TIME.ordinal()]);
            if (bad) {
                if (isLastLine(cells)) {
                    return false;
                }
                continue;
            }
            if (take(value)) {
                return true;
            }
        }
        return false;
    }

    /** A logger that loses power tears its last line: that one is left out. Any other bad line is refused. */
    private boolean isLastLine(LogCells cells) {
        long line = cells.line;
        LogField field = cells.badField == null ? LogField.TIME : cells.badField;
        String text = cells.badField == null ? "" : cells.badText;
        if (lines.next() != null) {
            throw lines.fault(line, field, text, lines.expected(field));
        }
        lines.skip();
        return true;
    }

    private boolean take(double[] value) {
        for (LogField field : mapped) {
            int f = field.ordinal();
            if (!Double.isNaN(value[f])) {
                seen[f] = true;
            } else if (seen[f]) {
                emptyCells++;
            }
        }
        held.timeS = value[LogField.TIME.ordinal()];
        held.motorTorqueNm = orHeld(value[LogField.MOTOR_TORQUE.ordinal()], held.motorTorqueNm);
        held.oilTemperatureC = orHeld(value[LogField.OIL_TEMPERATURE.ordinal()], held.oilTemperatureC);
        held.busVolts = orHeld(value[LogField.BUS_VOLTAGE.ordinal()], held.busVolts);
        double range = value[LogField.RANGE.ordinal()];
        held.range = Double.isNaN(range) ? held.range : RANGES[(int) range];
        double gear = value[LogField.GEAR.ordinal()];
        held.gear = Double.isNaN(gear) ? held.gear : GEARS[(int) gear];
        double brake = value[LogField.BRAKE.ordinal()];
        held.brakeApplied = Double.isNaN(brake) ? held.brakeApplied : brake != 0;
        double key = value[LogField.KEY.ordinal()];
        held.keyOn = Double.isNaN(key) ? held.keyOn : key != 0;
        // A line without a speed is no row: speed stays linear over it. Road speed alone may be silent and is then
        // held.
        double shaft = value[LogField.MOTOR_SPEED.ordinal()];
        double road = value[LogField.ROAD_SPEED.ordinal()];
        held.shaftSpeedRadPerS = shaft;
        held.roadSpeedMPerS = hasMotorSpeed ? orHeld(road, held.roadSpeedMPerS) : road;
        return !Double.isNaN(hasMotorSpeed ? shaft : road);
    }

    private static double orHeld(double read, double before) {
        return Double.isNaN(read) ? before : read;
    }

    long skippedLines() {
        return lines.skippedLines();
    }

    long duplicateRows() {
        return duplicateRows;
    }

    long backwardRows() {
        return backwardRows;
    }

    long emptyCells() {
        return emptyCells;
    }

    /** Logged time of the last row before a gap that was too long, s; NaN where there was none. */
    double endedByGapAtS() {
        return endedByGapAtS;
    }

    @Override
    public void close() {
        lines.close();
    }
}
