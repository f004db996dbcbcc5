package linehold.simulator.drive;

import java.nio.file.Path;

/**
 * Finds where a log really begins. Loggers write rubbish while they start: a line of units under the header, half a line,
 * rows of zeros before the clock is set. As long as the car has only stood, such rows prove nothing and leaving them out
 * is harmless; once it has moved, nothing is left out here.
 */
final class LogStart {
    /** Within so many rows the logger must have started. */
    static final int START_UP_ROWS = 100;
    /** So many good rows must follow the last rubbish. */
    static final int GOOD_ROWS = 3;

    private LogStart() {}

    /** Number of the first line that counts. */
    static long firstLine(Path file, LogMapping mapping, LogHeader header) {
        long afterHeader = header.line() + 1;
        long first = afterHeader;
        int goodRows = 0;
        boolean moved = false;
        double lastTimeS = Double.NaN;
        try (LogLines lines = new LogLines(file, mapping, header, afterHeader)) {
            LogCells cells = lines.next();
            for (int row = 0; row < START_UP_ROWS && cells != null && !moved; row++, cells = lines.next()) {
                double timeS = cells.value[LogField.TIME.ordinal()];
                if (cells.badField != null || Double.isNaN(timeS)) {
                    first = cells.line + 1;
                    goodRows = 0;
                    lastTimeS = Double.NaN;
                    continue;
                }
                if (Math.abs(timeS - lastTimeS) > mapping.maxGapS()) {
                    first = cells.line;
                    goodRows = 0;
                }
                lastTimeS = timeS;
                goodRows++;
                moved = isMoving(cells);
            }
        }
        // A log that turns bad for good is not starting up: let the reader refuse its first bad cell.
        return goodRows >= GOOD_ROWS || moved ? first : afterHeader;
    }

    private static boolean isMoving(LogCells cells) {
        return Math.abs(cells.value[LogField.MOTOR_SPEED.ordinal()]) > 0
                || Math.abs(cells.value[LogField.ROAD_SPEED.ordinal()]) > 0;
    }
}
