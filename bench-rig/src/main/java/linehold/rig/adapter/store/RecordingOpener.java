package linehold.rig.adapter.store;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.InstantSource;
import java.util.List;

/** Begins a recording in a folder; after a failure goes on with it, or begins another where it cannot be used any more. */
final class RecordingOpener implements BlockSink.Opener {
    private final RecordingFolder folder;
    private final RecordingFacts facts;
    private final InstantSource wall;
    private RecordingFolder.Lock lock;

    private Path file;

    RecordingOpener(Path folder, RecordingFacts facts, RecordingLimits limits, InstantSource wall) {
        this.folder = new RecordingFolder(folder, limits);
        this.facts = facts;
        this.wall = wall;
    }

    @Override
    public BlockSink open() throws SQLException, IOException {
        if (lock == null) {
            lock = folder.lock();
        }
        if (lock == null) {
            throw new IOException("another recorder writes into this folder");
        }
        if (file != null) {
            try {
                return RecordingWriter.resume(file, folder);
            } catch (SQLException | IOException e) {
                Recorder.LOG.warn("{} cannot be written any more, a new recording begins", file, e);
            }
        }
        folder.deleteBeginnings();
        List<Long> ids = folder.ids();
        Path next = folder.file(ids.isEmpty() ? 1 : ids.get(ids.size() - 1) + 1);
        RecordingWriter writer =
                RecordingWriter.begin(next, folder, facts, wall.instant().toString());
        file = next;
        return writer;
    }

    @Override
    public void close() throws IOException {
        if (lock != null) {
            lock.close();
        }
    }
}
