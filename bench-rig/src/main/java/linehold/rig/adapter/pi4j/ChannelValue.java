package linehold.rig.adapter.pi4j;

import java.util.concurrent.atomic.AtomicLong;

/** The latest number of one channel and when it was read, handed from the bus's thread to the loop's in one word. */
final class ChannelValue {
    private static final long NEVER = Long.MIN_VALUE;
    private static final int NUMBER_BITS = 16;
    private static final long MICROSECOND_NS = 1000;

    /** Time in µs above, number in the 16 bits below: good for eight years of monotonic clock. */
    private final AtomicLong word = new AtomicLong(NEVER);

    /**
     * @param number of the converter, signed 16 bits
     * @param nowNs when the conversion was read
     */
    void set(int number, long nowNs) {
        word.set(nowNs / MICROSECOND_NS << NUMBER_BITS | number & 0xffff);
    }

    /** The value as one word, for {@link #numberOf} and {@link #isOlder}. */
    long get() {
        return word.get();
    }

    boolean known() {
        return word.get() != NEVER;
    }

    static int numberOf(long word) {
        return (short) word;
    }

    static boolean isOlder(long word, long oldestNs, long nowNs) {
        return word == NEVER || nowNs - (word >> NUMBER_BITS) * MICROSECOND_NS > oldestNs;
    }
}
