package linehold.rig.adapter.mqtt;

import java.util.SplittableRandom;

/** How long to wait before the next try: twice as long each time up to a limit, half of it by chance. */
final class BackOff {
    private final long firstMs;
    private final long longestMs;
    private final SplittableRandom random;
    private long fullMs;

    /** @param random so that the rigs of a workshop do not all come back at once */
    BackOff(long firstMs, long longestMs, SplittableRandom random) {
        this.firstMs = firstMs;
        this.longestMs = longestMs;
        this.random = random;
        fullMs = firstMs;
    }

    /** ms, between half and the whole of a time that doubles. */
    long nextMs() {
        long waitMs = fullMs / 2 + random.nextLong(fullMs - fullMs / 2 + 1);
        fullMs = Math.min(longestMs, 2 * fullMs);
        return waitMs;
    }

    /** The connection has proved good: begin with the shortest wait again. */
    void reset() {
        fullMs = firstMs;
    }
}
