package linehold.rig.adapter.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.zip.CRC32;

/**
 * A small file that keeps the controller's stored trouble codes over a loss of power. It has two places of a fixed size,
 * written in turn: one of them is always whole, and a full medium does not matter.
 */
final class CodeFile {
    /** What one place holds. */
    record Content(long sequence, long wallNs, long rigNs, long[] longs, double[] doubles) {}

    private static final int MAGIC = 0x4C48_4B43;
    private static final int VERSION = 1;
    private static final int PLACES = 2;
    private static final int PLACE_BYTES = 16 * 1024;
    private static final int HEADER_BYTES = 2 * Integer.BYTES + 3 * Long.BYTES + 2 * Integer.BYTES;

    private final Path file;
    private final ByteBuffer buffer = ByteBuffer.allocate(PLACE_BYTES);
    private long sequence;

    CodeFile(Path file) {
        this.file = file;
    }

    /** The youngest whole content; null where there is none. */
    Content read() throws IOException {
        if (!Files.exists(file)) {
            return null;
        }
        Content youngest = null;
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
            for (int place = 0; place < PLACES; place++) {
                Content content = read(channel, place);
                if (content != null && (youngest == null || content.sequence > youngest.sequence)) {
                    youngest = content;
                }
            }
        }
        sequence = youngest == null ? 0 : youngest.sequence;
        return youngest;
    }

    private Content read(FileChannel channel, int place) throws IOException {
        buffer.clear();
        while (buffer.hasRemaining() && channel.read(buffer, (long) place * PLACE_BYTES + buffer.position()) >= 0) {}
        buffer.flip();
        if (buffer.limit() < PLACE_BYTES || buffer.getInt() != MAGIC || buffer.getInt() != VERSION) {
            return null;
        }
        long number = buffer.getLong();
        long wallNs = buffer.getLong();
        long rigNs = buffer.getLong();
        int longs = buffer.getInt();
        int doubles = buffer.getInt();
        int length = HEADER_BYTES + Long.BYTES * (longs + doubles);
        if (longs < 0 || doubles < 0 || length < 0 || length + Long.BYTES > PLACE_BYTES) {
            return null;
        }
        if (buffer.getLong(length) != checksum(length)) {
            return null;
        }
        Content content = new Content(number, wallNs, rigNs, new long[longs], new double[doubles]);
        for (int i = 0; i < longs; i++) {
            content.longs[i] = buffer.getLong();
        }
        for (int i = 0; i < doubles; i++) {
            content.doubles[i] = Double.longBitsToDouble(buffer.getLong());
        }
        return content;
    }

    /** Writes the older place and waits until it is on the medium. */
    void write(long wallNs, long rigNs, long[] longs, double[] doubles) throws IOException {
        if (sequence == 0) {
            create();
        }
        long number = sequence + 1;
        buffer.clear();
        buffer.putInt(MAGIC).putInt(VERSION);
        buffer.putLong(number).putLong(wallNs).putLong(rigNs);
        buffer.putInt(longs.length).putInt(doubles.length);
        for (long value : longs) {
            buffer.putLong(value);
        }
        for (double value : doubles) {
            buffer.putLong(Double.doubleToRawLongBits(value));
        }
        buffer.putLong(checksum(buffer.position()));
        while (buffer.hasRemaining()) {
            buffer.put((byte) 0);
        }
        buffer.flip();
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
            long at = number % PLACES * PLACE_BYTES;
            while (buffer.hasRemaining()) {
                at += channel.write(buffer, at);
            }
            channel.force(true);
        }
        sequence = number;
    }

    /** Takes its full size at once, so that writing never needs more room. */
    private void create() throws IOException {
        Path parent = file.toAbsolutePath().getParent();
        Files.createDirectories(parent);
        Files.write(file, new byte[PLACES * PLACE_BYTES]);
        // A new name is safe only when its folder is on the medium, too.
        try (FileChannel folder = FileChannel.open(parent, StandardOpenOption.READ)) {
            folder.force(true);
        } catch (IOException e) {
            Recorder.LOG.debug("this system does not let a folder be forced", e);
        }
    }

    private long checksum(int length) {
        CRC32 crc = new CRC32();
        crc.update(buffer.array(), 0, length);
        return crc.getValue();
    }
}
