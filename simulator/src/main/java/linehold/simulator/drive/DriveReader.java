package linehold.simulator.drive;

/** Reads a drive row by row in bounded memory. */
public interface DriveReader extends AutoCloseable {
    /**
     * Fills {@code into} with the next row.
     *
     * @return false when there is none; {@code into} is then unchanged
     * @throws linehold.simulator.build.InputException where the log cannot be understood: file, row, column, found, expected
     */
    boolean read(DriveSample into);

    /** What had to be repaired so far; complete after the last row. */
    default RepairCounts repairs() {
        return RepairCounts.NONE;
    }

    @Override
    default void close() {}
}
