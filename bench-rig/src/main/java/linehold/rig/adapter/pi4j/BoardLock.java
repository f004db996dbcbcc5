package linehold.rig.adapter.pi4j;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Locale;
import linehold.simulator.build.InputException;

/** Keeps a second program off the same board. The kernel drops the lock with the process, however that ends. */
final class BoardLock implements AutoCloseable {
    /** Where Linux keeps lock files; every user may write there. */
    static final Path FOLDER = Path.of("/run/lock");

    private final FileChannel channel;

    private BoardLock(FileChannel channel) {
        this.channel = channel;
    }

    /**
     * @param folder where the lock file is, or is made
     * @param board its name; the file is called after it
     * @throws InputException where another program holds the board
     */
    static BoardLock take(Path folder, String board) {
        Path file = folder.resolve("linehold-" + fileName(board) + ".lock");
        try {
            FileChannel channel = open(file);
            FileLock lock;
            try {
                lock = channel.tryLock();
            } catch (OverlappingFileLockException e) {
                lock = null;
            }
            if (lock == null) {
                channel.close();
                throw new InputException("board '" + board + "': found another linehold running on it (lock " + file
                        + "), expected none");
            }
            return new BoardLock(channel);
        } catch (IOException e) {
            throw new InputException(
                    "board '" + board + "': found no way to lock it (" + e
                            + "), expected a lock file that may be written",
                    e);
        }
    }

    private static FileChannel open(Path file) throws IOException {
        try {
            Files.createDirectories(file.getParent());
            Files.createFile(file);
            // For whoever starts it next, service or person.
            Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-rw-rw-"));
        } catch (FileAlreadyExistsException e) {
            // It stays from before; only the lock on it counts.
        }
        return FileChannel.open(file, StandardOpenOption.WRITE);
    }

    private static String fileName(String board) {
        return board.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
    }

    @Override
    public void close() {
        try {
            channel.close();
        } catch (IOException e) {
            throw new IllegalStateException("a lock file cannot be closed", e);
        }
    }
}
