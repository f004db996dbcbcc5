package linehold.simulator.drive;

/**
 * Harmless damage that a log reader mended, by kind.
 *
 * @param skippedLines comment lines, blank lines and logger start-up garbage before the header
 * @param duplicateRows rows with the time stamp of the row before (the later row counts)
 * @param backwardRows rows with an earlier time stamp than the row before, left out
 * @param emptyCells empty optional cells taken from the row before
 * @param endedByGap whether a gap longer than the allowed one ended the evidence there
 * @param endedAtS time of the drive at which the evidence ended, s; NaN where it did not end early
 * @param startPutBeforeS length of the start (key on, engaging at standstill) that was put before a log without one, s
 */
public record RepairCounts(
        long skippedLines,
        long duplicateRows,
        long backwardRows,
        long emptyCells,
        boolean endedByGap,
        double endedAtS,
        double startPutBeforeS) {
    public static final RepairCounts NONE = new RepairCounts(0, 0, 0, 0, false, Double.NaN, 0);

    /** Whether anything was mended; a start put before the log is none of it. */
    public boolean any() {
        return skippedLines + duplicateRows + backwardRows + emptyCells > 0 || endedByGap;
    }
}
