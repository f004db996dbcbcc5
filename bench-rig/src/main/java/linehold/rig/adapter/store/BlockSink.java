package linehold.rig.adapter.store;

import java.io.IOException;
import java.sql.SQLException;
import java.util.List;

/** Where full blocks go. */
interface BlockSink {
    /** Opens the store of a recording that has just begun, or has stopped and goes on. */
    interface Opener extends AutoCloseable {
        BlockSink open() throws SQLException, IOException;

        /** Nothing more will be opened. */
        @Override
        default void close() throws IOException {}
    }

    /** Keeps a block and its events, both or none, in a way that outlives a loss of power. */
    void append(BlockBuffer block, List<RecordedEvent> events, long writtenMs) throws SQLException;

    /** Makes room where there is too little. */
    void tidy() throws IOException, SQLException;

    /** The recording ends in order. */
    void end(String endedUtc) throws SQLException;

    /** Lets go of the store, whatever state it is in. */
    void abandon();
}
