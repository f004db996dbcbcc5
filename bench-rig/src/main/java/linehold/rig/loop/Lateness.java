package linehold.rig.loop;

import java.util.concurrent.atomic.AtomicLongArray;

/** How late ticks begin: a histogram in steps of 10 µs up to 10 ms. Written by the loop, read by anybody. */
public final class Lateness {
    /** Width of a bin, ns. */
    public static final long BIN_NS = 10_000;

    private static final int BINS = 1000;
    /** The last bin holds everything later. */
    private final AtomicLongArray counts = new AtomicLongArray(BINS + 1);

    private volatile long worstNs;
    private volatile long skipped;

    void add(long lateNs) {
        counts.lazySet(binOf(lateNs), counts.get(binOf(lateNs)) + 1);
        if (lateNs > worstNs) {
            worstNs = lateNs;
        }
    }

    void skip(long ticks) {
        skipped += ticks;
    }

    private static int binOf(long lateNs) {
        return (int) Math.min(BINS, Math.max(0, lateNs) / BIN_NS);
    }

    public long ticks() {
        long sum = 0;
        for (int i = 0; i <= BINS; i++) {
            sum += counts.get(i);
        }
        return sum;
    }

    /** Number of bins; the last one has no upper end. */
    public int bins() {
        return BINS + 1;
    }

    /** Ticks that were later than {@code bin} and not later than {@code bin + 1} widths. */
    public long count(int bin) {
        return counts.get(bin);
    }

    public long worstNs() {
        return worstNs;
    }

    /** Ticks that were left out because the one before took longer than a period. */
    public long skipped() {
        return skipped;
    }

    /**
     * Upper end of the bin in which this share of all ticks is reached, ns; the worst lateness where that is the last bin,
     * 0 where no tick has run.
     *
     * @param share 0 to 1, such as 0.999
     */
    public long quantileNs(double share) {
        long wanted = (long) Math.ceil(share * ticks());
        long sum = 0;
        for (int i = 0; i < BINS; i++) {
            sum += counts.get(i);
            if (sum >= wanted) {
                return wanted == 0 ? 0 : (i + 1) * BIN_NS;
            }
        }
        return worstNs;
    }
}
