package linehold.rig.adapter.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import linehold.rig.loop.TickRow;
import linehold.simulator.build.InputException;

/** The rows of a recording in their order, read block by block. */
public final class RecordedRows implements AutoCloseable {
    private final Path file;
    private final Statement statement;
    private final ResultSet blocks;
    private final BlockDecoder decoder = new BlockDecoder();
    private final double[][] columns;
    private int rows;
    private int next;
    private long tick = -1;
    private long missedBefore;

    RecordedRows(Path file, Connection connection, int fields) throws SQLException {
        this.file = file;
        statement = connection.createStatement();
        blocks = statement.executeQuery("SELECT first_tick, ticks, missed, crc32, data FROM block ORDER BY first_tick");
        columns = new double[fields][BlockBuffer.MOST_ROWS];
    }

    /**
     * Copies the next row: first the time of the tick, then the fields after the first as they are stored.
     *
     * @return false where there is none
     * @throws InputException where a block is damaged
     */
    public boolean next(double[] row) {
        missedBefore = 0;
        if (next == rows && !nextBlock()) {
            return false;
        }
        for (int c = 0; c < columns.length; c++) {
            row[c] = columns[c][next];
        }
        row[TickRow.NOW_NS] += row[TickRow.LATE_NS];
        next++;
        tick++;
        return true;
    }

    private boolean nextBlock() {
        try {
            if (!blocks.next()) {
                return false;
            }
            long firstTick = blocks.getLong(1);
            long ticks = blocks.getLong(2);
            byte[] data = blocks.getBytes(5);
            boolean whole = BlockChecksum.of(firstTick, ticks, blocks.getLong(3), data) == blocks.getLong(4);
            if (!whole || ticks < 1 || ticks > BlockBuffer.MOST_ROWS || firstTick <= tick) {
                throw new InputException(file + ": the block at tick " + firstTick + " is damaged");
            }
            decoder.decode(data, (int) ticks, columns);
            missedBefore = firstTick - (tick + 1);
            tick = firstTick - 1;
            rows = (int) ticks;
            next = 0;
            return true;
        } catch (SQLException e) {
            throw Recording.unreadable(file, e);
        } catch (IllegalArgumentException e) {
            throw new InputException(file + ": a block cannot be unpacked: it is " + e.getMessage(), e);
        }
    }

    /** Number of the row since the recording's start. */
    public long tick() {
        return tick;
    }

    /** How many ticks were not recorded, or are not kept, before this row. */
    public long missedBefore() {
        return missedBefore;
    }

    @Override
    public void close() {
        decoder.close();
        try {
            statement.close();
        } catch (SQLException e) {
            Recorder.LOG.debug("closing a query", e);
        }
    }
}
