package linehold.rig.procedure;

/** Mean, lowest and highest of a row of values. */
final class Mean {
    private double sum;
    private long count;
    private double lowest;
    private double highest;

    Mean() {
        clear();
    }

    void clear() {
        sum = 0;
        count = 0;
        lowest = Double.POSITIVE_INFINITY;
        highest = Double.NEGATIVE_INFINITY;
    }

    void add(double value) {
        sum += value;
        count++;
        lowest = Math.min(lowest, value);
        highest = Math.max(highest, value);
    }

    /** NaN of nothing. */
    double value() {
        return sum / count;
    }

    double lowest() {
        return lowest;
    }

    double highest() {
        return highest;
    }

    long count() {
        return count;
    }
}
