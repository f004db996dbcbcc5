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

    /** The bits of the value on the line through the two before. */
    static long expectedOnLine(double[] values, int i) {
        if (i == 0) {
            return 0;
        }
        // NaN in its one canonical form: which one arithmetic gives differs between machines.
        return Double.doubleToLongBits(i == 1 ? values[0] : 2 * values[i - 1] - values[i - 2]);
    }

    static long zigzag(long value) {
        return value << 1 ^ value >> 63;
    }

    static long unZigzag(long value) {
        return value >>> 1 ^ -(value & 1);
    }
}
