package linehold.rig.adapter.store;

import java.nio.ByteBuffer;
import java.util.zip.CRC32;

/** CRC-32 of a block: where it belongs, then its packed bytes. */
final class BlockChecksum {
    private BlockChecksum() {}

    static long of(long firstTick, long ticks, long missed, byte[] data) {
        CRC32 crc = new CRC32();
        crc.update(ByteBuffer.allocate(3 * Long.BYTES)
                .putLong(firstTick)
                .putLong(ticks)
                .putLong(missed)
                .array());
        crc.update(data);
        return crc.getValue();
    }
}
