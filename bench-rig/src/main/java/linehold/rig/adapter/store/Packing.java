package linehold.rig.adapter.store;

/** How a column of a block is packed, and what both sides expect of the next value. */
final class Packing {
    static final int CONSTANT = 0;
    static final int SAME = 1;
    /** Whole numbers by differences of order 0, 1, 2. */
    static final int[] WHOLE = {2, 3, 4};

    static final int CHOICE = 5;
    static final int CHOICE_LIKE = 6;
    static final int XOR = 7;
    static final int LINE = 8;
    /** The columns before this one are the time over which a line is straight. */
    static final int FIRST_ON_LINE = 2;

    private static final double MOST_WHOLE = 1L << 53;

    private Packing() {}

    /** A number that a long holds without loss; −0 is none. */
    static boolean isWhole(double value) {
        return Math.abs(value) < MOST_WHOLE
                && Double.doubleToRawLongBits((double) (long) value) == Double.doubleToRawLongBits(value);
    }

    static long expectedWhole(double[] values, int i, int order) {
        if (order == 0 || i == 0) {
            return 0;
        }
        return order == 1 || i == 1 ? (long) values[i - 1] : 2 * (long) values[i - 1] - (long) values[i - 2];
    }

    /**
     * The bits of the value on the straight line through the two before, over the time of the ticks.
     *
     * @param dueNs when each tick was due, ns
     * @param lateNs how much later it began, ns
     */
    static long expectedOnLine(double[] values, int i, double[] dueNs, double[] lateNs) {
        if (i < 2) {
            return i == 0 ? 0 : Double.doubleToLongBits(values[0]);
        }
        double stepNs = dueNs[i] + lateNs[i] - (dueNs[i - 1] + lateNs[i - 1]);
        double stepBeforeNs = dueNs[i - 1] + lateNs[i - 1] - (dueNs[i - 2] + lateNs[i - 2]);
        double expected = values[i - 1] + (values[i - 1] - values[i - 2]) * stepNs / stepBeforeNs;
        // NaN in its one canonical form: which one arithmetic gives differs between machines.
        return Double.doubleToLongBits(expected);
    }

    static long zigzag(long value) {
        return value << 1 ^ value >> 63;
    }

    static long unZigzag(long value) {
        return value >>> 1 ^ -(value & 1);
    }
}
