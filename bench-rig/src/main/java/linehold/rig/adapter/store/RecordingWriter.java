package linehold.rig.adapter.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import linehold.rig.loop.TickRow;

/**
 * One recording's file while it is written: an SQLite database with a write-ahead log. Each block is one transaction, and
 * synchronous is FULL: the log is on the medium before the transaction counts, so that a loss of power loses no block that
 * was written, and never damages the file.
 */
final class RecordingWriter implements BlockSink {
    private static final String INSERT_BLOCK = "INSERT INTO block VALUES (?, ?, ?, ?, ?, ?, ?, ?)";
    private static final String INSERT_EVENT = "INSERT INTO event VALUES (?, ?, ?, ?)";
    private static final String OLDEST = "(SELECT first_tick FROM block ORDER BY first_tick LIMIT 2)";

    private final Path file;
    private final RecordingFolder folder;
    private final Connection connection;
    private final BlockEncoder encoder;
    private final PreparedStatement insertBlock;
    private final PreparedStatement insertEvent;
    /** No other recording is left to be dropped. */
    private boolean dropOwnOldest;

    private RecordingWriter(Path file, RecordingFolder folder, Connection connection) throws SQLException {
        this.file = file;
        this.folder = folder;
        this.connection = connection;
        insertBlock = connection.prepareStatement(INSERT_BLOCK);
        insertEvent = connection.prepareStatement(INSERT_EVENT);
        encoder = new BlockEncoder(TickRow.LENGTH, BlockBuffer.MOST_ROWS);
    }

    /** Begins a recording. It appears in its folder whole or not at all. */
    static RecordingWriter begin(Path file, RecordingFolder folder, RecordingFacts facts, String startedUtc)
            throws SQLException, IOException {
        Path part = file.resolveSibling(file.getFileName() + RecordingFolder.PART);
        Files.deleteIfExists(part);
        try (Connection connection = connect(part);
                Statement statement = connection.createStatement()) {
            // Half a file is thrown away, so it need be on the medium only once, as a whole.
            statement.execute("PRAGMA synchronous = OFF");
            Schema.stamp(connection);
            connection.setAutoCommit(false);
            Schema.create(connection, facts, startedUtc);
            connection.commit();
        }
        try (FileChannel channel = FileChannel.open(part, StandardOpenOption.WRITE)) {
            channel.force(true);
        }
        Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
        return resume(file, folder);
    }

    /** Goes on with a recording of this process. */
    static RecordingWriter resume(Path file, RecordingFolder folder) throws SQLException, IOException {
        if (!Files.isRegularFile(file)) {
            throw new IOException(file + " has gone");
        }
        Connection connection = connect(file);
        try (Statement statement = connection.createStatement()) {
            statement.execute("PRAGMA journal_mode = WAL");
            statement.execute("PRAGMA synchronous = FULL");
            connection.setAutoCommit(false);
            return new RecordingWriter(file, folder, connection);
        } catch (SQLException e) {
            closeQuietly(connection);
            throw e;
        }
    }

    private static Connection connect(Path file) throws SQLException {
        return DriverManager.getConnection("jdbc:sqlite:" + file.toAbsolutePath());
    }

    /** For tests: the file may not grow beyond so many pages, as if the medium were full. */
    void limitPages(long pages) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.execute("PRAGMA max_page_count = " + pages);
        }
    }

    @Override
    public void append(BlockBuffer block, List<RecordedEvent> events, long writtenMs) throws SQLException {
        byte[] data = encoder.encode(block.columns, block.rows);
        try {
            if (dropOwnOldest) {
                dropOldest();
            }
            insertBlock.setLong(1, block.firstTick);
            insertBlock.setLong(2, block.rows);
            insertBlock.setLong(3, block.missed);
            insertBlock.setLong(4, block.firstNs());
            insertBlock.setLong(5, block.lastNs());
            insertBlock.setLong(6, writtenMs);
            insertBlock.setLong(7, BlockChecksum.of(block.firstTick, block.rows, block.missed, data));
            insertBlock.setBytes(8, data);
            insertBlock.executeUpdate();
            for (RecordedEvent event : events) {
                insertEvent.setLong(1, event.tick());
                insertEvent.setLong(2, event.nowNs());
                insertEvent.setString(3, event.kind().name());
                insertEvent.setString(4, event.name());
                insertEvent.executeUpdate();
            }
            connection.commit();
        } catch (SQLException e) {
            rollBack(e);
            throw e;
        }
    }

    private void dropOldest() throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.executeUpdate("DELETE FROM block WHERE first_tick IN " + OLDEST);
            statement.executeUpdate("DELETE FROM event WHERE tick < (SELECT min(first_tick) FROM block)");
        }
    }

    private void rollBack(SQLException reason) {
        try {
            connection.rollback();
        } catch (SQLException e) {
            reason.addSuppressed(e);
        }
    }

    @Override
    public void tidy() throws IOException, SQLException {
        dropOwnOldest = !folder.makeRoom(file, usedBytes());
    }

    private long usedBytes() throws SQLException {
        return (pragma("page_count") - pragma("freelist_count")) * pragma("page_size");
    }

    private long pragma(String name) throws SQLException {
        try (Statement statement = connection.createStatement();
                ResultSet result = statement.executeQuery("PRAGMA " + name)) {
            return result.getLong(1);
        }
    }

    @Override
    public void end(String endedUtc) throws SQLException {
        Schema.putFact(connection, Schema.FACT_ENDED, endedUtc);
        connection.commit();
        abandon();
    }

    @Override
    public void abandon() {
        encoder.close();
        closeQuietly(connection);
    }

    private static void closeQuietly(Connection connection) {
        try {
            connection.close();
        } catch (SQLException e) {
            Recorder.LOG.debug("closing a store that has failed", e);
        }
    }
}
