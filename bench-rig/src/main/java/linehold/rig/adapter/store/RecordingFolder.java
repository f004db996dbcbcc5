package linehold.rig.adapter.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A folder of recordings: one file each, numbered, the largest number the youngest. */
final class RecordingFolder {
    static final String PART = ".part";
    /** What SQLite keeps beside a database while it is open, or after its process was killed. */
    private static final List<String> BESIDE = List.of("-wal", "-shm", "-journal");

    private static final Pattern NAME = Pattern.compile("(\\d{6,18})\\.lhrec");
    private static final String LOCK = "recorder.lock";

    private final Path folder;
    private final RecordingLimits limits;

    RecordingFolder(Path folder, RecordingLimits limits) {
        this.folder = folder;
        this.limits = limits;
    }

    /** Held by a recorder while it runs, so that there is one a folder, and nobody deletes what it writes. */
    static final class Lock implements AutoCloseable {
        private final FileChannel channel;

        private Lock(FileChannel channel) {
            this.channel = channel;
        }

        @Override
        public void close() throws IOException {
            channel.close();
        }
    }

    /** @return null where a recorder holds it */
    Lock lock() throws IOException {
        Files.createDirectories(folder);
        FileChannel channel =
                FileChannel.open(folder.resolve(LOCK), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
        FileLock lock = null;
        try {
            lock = channel.tryLock();
        } catch (OverlappingFileLockException e) {
            Recorder.LOG.debug("a recorder of this process holds {}", folder);
        } finally {
            if (lock == null) {
                channel.close();
            }
        }
        return lock == null ? null : new Lock(channel);
    }

    /** Numbers of the recordings, oldest first. */
    List<Long> ids() throws IOException {
        List<Long> ids = new ArrayList<>();
        if (!Files.isDirectory(folder)) {
            return ids;
        }
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder)) {
            for (Path file : files) {
                Matcher matcher = NAME.matcher(file.getFileName().toString());
                if (matcher.matches()) {
                    ids.add(Long.parseLong(matcher.group(1)));
                }
            }
        }
        ids.sort(null);
        return ids;
    }

    Path file(long id) {
        return folder.resolve(String.format(Locale.ROOT, "%06d.lhrec", id));
    }

    /** Size of a recording with what lies beside it, bytes. */
    long bytes(long id) throws IOException {
        long bytes = size(file(id));
        for (String ending : BESIDE) {
            bytes += size(beside(id, ending));
        }
        return bytes;
    }

    private static long size(Path file) throws IOException {
        try {
            return Files.size(file);
        } catch (NoSuchFileException e) {
            return 0;
        }
    }

    private Path beside(long id, String ending) {
        Path file = file(id);
        return file.resolveSibling(file.getFileName() + ending);
    }

    /** The log first: a database without its log is whole, a log without its database is nothing. */
    void delete(long id) throws IOException {
        for (String ending : BESIDE) {
            Files.deleteIfExists(beside(id, ending));
        }
        Files.deleteIfExists(file(id));
    }

    /**
     * Drops the oldest recordings until all fit.
     *
     * @param running is never dropped
     * @param runningBytes how much of it is in use
     * @return false where the running one alone is too large
     */
    boolean makeRoom(Path running, long runningBytes) throws IOException {
        List<Long> others = ids();
        others.removeIf(id -> file(id).equals(running));
        long bytes = runningBytes;
        for (long id : others) {
            bytes += bytes(id);
        }
        for (long id : others) {
            if (bytes <= limits.mostBytes()) {
                return true;
            }
            bytes -= bytes(id);
            delete(id);
        }
        return bytes <= limits.mostBytes();
    }

    /** What a recorder left that was killed while it began a recording. */
    void deleteBeginnings() throws IOException {
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*.lhrec" + PART + "*")) {
            for (Path file : files) {
                Files.delete(file);
            }
        }
    }
}
