package linehold.controller.signal;

/** Whether something happened more often than a stated number of times within a sliding window. */
public final class Occurrences {
    private final long windowNs;
    private final long[] timesNs;
    private int next;
    private long total;

    /**
     * @param most how often within the window is still allowed; at least 1
     * @param windowNs length of the window, ns
     */
    public Occurrences(int most, long windowNs) {
        this.windowNs = windowNs;
        this.timesNs = new long[most + 1];
    }

    /** Notes that it happened now. */
    public void add(long nowNs) {
        timesNs[next] = nowNs;
        next = next + 1 == timesNs.length ? 0 : next + 1;
        total++;
    }

    /** Whether more than the allowed number lie within the window that ends now. */
    public boolean tooMany(long nowNs) {
        // The slot to be overwritten next holds the oldest of the last (most + 1).
        return total >= timesNs.length && nowNs - timesNs[next] < windowNs;
    }
}
