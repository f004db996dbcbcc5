package linehold.simulator.drive;

import java.util.List;

/**
 * A drive whose few rows are kept in memory: a schedule or a manoeuvre.
 *
 * @param name short name in lower case with hyphens
 * @param source the standard, or "invented"
 * @param distanceM distance driven forward and backward on rolling wheels, m
 * @param rows rows in order of time; not changed after construction
 */
public record RowDrive(String name, String source, double distanceM, List<DriveSample> rows) implements Drive {
    public RowDrive {
        rows = List.copyOf(rows);
    }

    /** Time of the last row, s. */
    public double durationS() {
        return rows.get(rows.size() - 1).timeS;
    }

    /** Highest shaft speed, rad/s. */
    public double topShaftSpeedRadPerS() {
        return rows.stream().mapToDouble(row -> row.shaftSpeedRadPerS).max().orElse(0);
    }

    @Override
    public DriveReader open() {
        return new DriveReader() {
            private int next;

            @Override
            public boolean read(DriveSample into) {
                if (next == rows.size()) {
                    return false;
                }
                into.copyFrom(rows.get(next++));
                return true;
            }
        };
    }
}
