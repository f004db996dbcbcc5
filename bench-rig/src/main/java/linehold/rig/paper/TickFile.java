package linehold.rig.paper;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import linehold.simulator.build.InputException;

/**
 * Line pressure and shaft speed of every tick of a run, eight bytes a tick, in a temporary file without a name: a day is
 * 138 MB, more than a program that also proves should hold. It goes when it is closed or the program ends.
 */
final class TickFile implements AutoCloseable {
    private static final int TICK_BYTES = 2 * Float.BYTES;
    private static final int CHUNK_TICKS = 1 << 14;

    private final FileChannel file;
    private final ByteBuffer chunk = ByteBuffer.allocate(CHUNK_TICKS * TICK_BYTES);
    private long length;

    /** @throws InputException where no temporary file can be made */
    TickFile() {
        try {
            Path path = Files.createTempFile("linehold-run-", ".ticks");
            file = FileChannel.open(
                    path, StandardOpenOption.READ, StandardOpenOption.WRITE, StandardOpenOption.DELETE_ON_CLOSE);
        } catch (IOException e) {
            throw trouble(e);
        }
    }

    private static InputException trouble(IOException e) {
        return new InputException(
                System.getProperty("java.io.tmpdir") + ": found no room for the ticks of this run (" + e.getMessage()
                        + "), expected 30 MB for each five hours of drive",
                e);
    }

    /** Pa and rad/s. */
    void add(float pressurePa, float speedRadPerS) {
        chunk.putFloat(pressurePa).putFloat(speedRadPerS);
        length++;
        if (!chunk.hasRemaining()) {
            flush();
        }
    }

    /** Nothing can be read before it is written. */
    void flush() {
        try {
            chunk.flip();
            while (chunk.hasRemaining()) {
                file.write(chunk);
            }
            chunk.clear();
        } catch (IOException e) {
            throw trouble(e);
        }
    }

    long length() {
        return length;
    }

    long bytes() {
        return length * TICK_BYTES;
    }

    /** Pressure and speed in turn of some ticks. */
    ByteBuffer read(long first, int ticks) {
        try {
            ByteBuffer into = ByteBuffer.allocate(ticks * TICK_BYTES);
            while (into.hasRemaining()) {
                if (file.read(into, first * TICK_BYTES + into.position()) < 0) {
                    throw new IllegalStateException("a tick was asked that the run has not");
                }
            }
            return into.flip();
        } catch (IOException e) {
            throw trouble(e);
        }
    }

    @Override
    public void close() {
        try {
            file.close();
        } catch (IOException e) {
            throw trouble(e);
        }
    }
}
