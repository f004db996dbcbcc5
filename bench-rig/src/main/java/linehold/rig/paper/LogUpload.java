package linehold.rig.paper;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.LongSupplier;
import linehold.simulator.build.InputException;

/**
 * Writes what comes from a stream into a file of a folder, piece by piece: all of it, or nothing. Never over a file that is
 * there.
 */
public final class LogUpload {
    private static final String PART = ".part";
    private static final int PIECE_BYTES = 1 << 16;
    private static final AtomicLong NUMBER = new AtomicLong();

    private final Path folder;
    private final LogLimits limits;
    private final LongSupplier freeBytes;

    LogUpload(Path folder, LogLimits limits, LongSupplier freeBytes) {
        this.folder = folder;
        this.limits = limits;
        this.freeBytes = freeBytes;
    }

    /** More came than a log may have. */
    public static final class TooLargeException extends RuntimeException {
        TooLargeException(String file, LogLimits limits) {
            super(file + ": found more than " + limits.mostBytes() / 1_000_000 + " MB, expected a log up to that size;"
                    + " split it, or prove it with 'linehold prove'");
        }
    }

    /** The log did not come to its end, or too slowly. */
    public static final class SenderGoneException extends RuntimeException {
        SenderGoneException(IOException e) {
            super("the log did not come to its end; nothing of it was kept", e);
        }
    }

    /**
     * @param file name in the folder, already known to be a safe one
     * @throws InputException where it is no text, a file of that name is there, or there is no room
     * @throws TooLargeException where it is too long
     * @throws SenderGoneException where the sender goes away
     */
    void write(String file, InputStream in) {
        Path part = folder.resolve("." + ProcessHandle.current().pid() + "-" + NUMBER.incrementAndGet() + PART);
        try {
            try (FileChannel channel =
                    FileChannel.open(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
                // Held so that another program that starts in this folder does not clear it away.
                channel.lock();
                copy(file, in, channel);
                // After a power cut there is the whole log or none.
                channel.force(true);
            } catch (IOException e) {
                throw cannotWrite(file, e);
            }
            putInPlace(file, part);
        } finally {
            delete(part);
        }
    }

    private void copy(String file, InputStream in, FileChannel channel) throws IOException {
        byte[] piece = new byte[PIECE_BYTES];
        long bytes = 0;
        for (int read = read(in, piece); read > 0; read = read(in, piece)) {
            if (bytes == 0) {
                requireText(file, piece, read);
            }
            bytes += read;
            if (bytes > limits.mostBytes()) {
                throw new TooLargeException(file, limits);
            }
            requireRoom(file, read);
            ByteBuffer buffer = ByteBuffer.wrap(piece, 0, read);
            while (buffer.hasRemaining()) {
                channel.write(buffer);
            }
        }
        if (bytes == 0) {
            throw new InputException(file + ": is empty, expected a log of lines with cells");
        }
    }

    /** Whole pieces, so that the first one is judged the same however it arrives. */
    private static int read(InputStream in, byte[] piece) {
        try {
            return in.readNBytes(piece, 0, piece.length);
        } catch (IOException e) {
            throw new SenderGoneException(e);
        }
    }

    void requireRoom(String file, long bytes) {
        if (freeBytes.getAsLong() - bytes < limits.keptFreeBytes()) {
            throw new InputException(file + ": found too little room in " + folder + ", expected "
                    + limits.keptFreeBytes() / 1_000_000 + " MB to stay free there for what else is recorded");
        }
    }

    /** A text has no control characters but those that part it; in UTF-16, which begins with a mark, any byte may come. */
    private static void requireText(String file, byte[] piece, int length) {
        boolean marked = length > 1
                && ((piece[0] & 0xff) == 0xff && (piece[1] & 0xff) == 0xfe
                        || (piece[0] & 0xff) == 0xfe && (piece[1] & 0xff) == 0xff);
        for (int i = 0; i < length && !marked; i++) {
            if (piece[i] >= 0 && piece[i] < ' ' && "\t\n\r\f\u001a".indexOf(piece[i]) < 0) {
                throw new InputException(
                        file + ": is no text (byte " + (i + 1) + " is " + piece[i] + "), expected a CSV log");
            }
        }
    }

    private void putInPlace(String file, Path part) {
        try {
            // The hard way to replace a file is not asked for: a name that is taken is refused.
            Files.move(part, folder.resolve(file));
        } catch (IOException e) {
            throw Files.exists(folder.resolve(file)) ? taken(file) : cannotWrite(file, e);
        }
    }

    static InputException taken(String file) {
        return new InputException(
                file + ": found a log of that name, expected a new one; remove that one first, or name this one anew");
    }

    private InputException cannotWrite(String file, IOException e) {
        return new InputException(
                file + ": found no way to write it (" + e.getClass().getSimpleName() + "), expected room in " + folder
                        + ", which may be written",
                e);
    }

    /** Clears away what was left by a program that ended while a log came in. */
    void deleteLeftOvers() throws IOException {
        try (DirectoryStream<Path> parts = Files.newDirectoryStream(folder, ".*" + PART)) {
            for (Path part : parts) {
                if (isLeft(part)) {
                    Files.deleteIfExists(part);
                }
            }
        }
    }

    private static boolean isLeft(Path part) {
        try (FileChannel channel = FileChannel.open(part, StandardOpenOption.WRITE);
                FileLock lock = channel.tryLock()) {
            return lock != null;
        } catch (IOException | OverlappingFileLockException e) {
            return false;
        }
    }

    private static void delete(Path part) {
        try {
            Files.deleteIfExists(part);
        } catch (IOException e) {
            // Cleared away at the next start.
            part.toFile().deleteOnExit();
        }
    }
}
