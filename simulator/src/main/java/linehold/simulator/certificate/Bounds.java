package linehold.simulator.certificate;

/**
 * A closed interval.
 *
 * @param low lowest value
 * @param high highest value, not below {@code low}
 */
public record Bounds(double low, double high) {
    public Bounds {
        if (!(low <= high)) {
            throw new IllegalArgumentException("no interval from " + low + " to " + high);
        }
    }

    public boolean contains(Bounds other) {
        return low <= other.low && other.high <= high;
    }
}
