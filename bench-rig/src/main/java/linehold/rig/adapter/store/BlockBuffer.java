package linehold.rig.adapter.store;

import linehold.rig.loop.TickRow;

/** The rows that are not written yet, by column. */
final class BlockBuffer {
    /** Longest time that a block covers, ns; with the time to write it, less than a second is lost at worst. */
    static final long LONGEST_NS = 600_000_000L;

    static final int MOST_ROWS = 1024;

    final double[][] columns = new double[TickRow.LENGTH][MOST_ROWS];
    int rows;
    /** Number of the first row since the recording's start, missed ones counted. */
    long firstTick;
    /** Rows that were missed just before the first one. */
    long missed;

    /** The first column holds when the tick was due, which is a straight line where nothing was left out. */
    void add(double[] row) {
        for (int c = 0; c < row.length; c++) {
            columns[c][rows] = row[c];
        }
        columns[TickRow.NOW_NS][rows] = row[TickRow.NOW_NS] - row[TickRow.LATE_NS];
        rows++;
    }

    boolean full() {
        double coveredNs = rows == 0 ? 0 : columns[TickRow.NOW_NS][rows - 1] - columns[TickRow.NOW_NS][0];
        return rows == MOST_ROWS || coveredNs >= LONGEST_NS;
    }

    long firstNs() {
        return nowNs(0);
    }

    long lastNs() {
        return nowNs(rows - 1);
    }

    private long nowNs(int row) {
        return (long) (columns[TickRow.NOW_NS][row] + columns[TickRow.LATE_NS][row]);
    }

    /** Begins the next block. */
    void next() {
        firstTick += rows;
        rows = 0;
        missed = 0;
    }

    /** The rows here are lost, and so they are missed before the next block. */
    void lose() {
        firstTick += rows;
        missed += rows;
        rows = 0;
    }

    /** Rows were missed before the one to come; only where the block has none yet. */
    void miss(long count) {
        firstTick += count;
        missed += count;
    }
}
