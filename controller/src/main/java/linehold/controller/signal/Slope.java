package linehold.controller.signal;

/**
 * How fast a value changes, from samples at uneven times: the difference to the youngest sample that is at least one
 * window old. Noise shrinks with the window, delay grows with half of it. Where samples are farther apart than the
 * window, neighbours are compared.
 */
public final class Slope {
    private final long windowNs;
    private final long[] timesNs;
    private final double[] values;
    private int newest = -1;
    private int reference;
    private int count;

    /**
     * @param windowNs least distance of the samples compared, ns
     * @param capacity most samples kept; with more than this within a window the oldest kept one is compared
     */
    public Slope(long windowNs, int capacity) {
        this.windowNs = windowNs;
        this.timesNs = new long[capacity];
        this.values = new double[capacity];
    }

    /** Takes a sample; its time must lie after the one before. */
    public void add(long timeNs, double value) {
        newest = following(newest);
        timesNs[newest] = timeNs;
        values[newest] = value;
        if (count < timesNs.length) {
            count++;
        } else if (reference == newest) {
            reference = following(reference);
        }
    }

    /**
     * Change per second up to a value at a time, against the samples before it; NaN without such a sample. Times must not
     * run backward from call to call, because samples that are too old are passed over for good.
     */
    public double perSecond(long timeNs, double value) {
        if (count == 0) {
            return Double.NaN;
        }
        while (reference != newest && timeNs - timesNs[following(reference)] >= windowNs) {
            reference = following(reference);
        }
        long spanNs = timeNs - timesNs[reference];
        return spanNs > 0 ? (value - values[reference]) * 1e9 / spanNs : Double.NaN;
    }

    /** Forgets all samples. */
    public void reset() {
        newest = -1;
        reference = 0;
        count = 0;
    }

    private int following(int index) {
        return index + 1 == timesNs.length ? 0 : index + 1;
    }
}
