package linehold.simulator.drive;

/** Reads decimal numbers from a character buffer without making a string of each. */
final class Decimals {
    /** Up to this many digits fit a double exactly, and so does each power of ten up to 22. */
    private static final int EXACT_DIGITS = 15;

    private static final double[] TENS = {
        1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19,
        1e20, 1e21, 1e22
    };

    /** What is no number comes back as this. */
    static final double NO_NUMBER = Double.NaN;

    private Decimals() {}

    /**
     * The double nearest to the digits.
     *
     * @param mark decimal mark
     * @param otherMark a second decimal mark that is accepted too; the same as {@code mark} for none
     * @return the value, or NaN where the characters are not one plain decimal number
     */
    static double parse(char[] buffer, int offset, int length, char mark, char otherMark) {
        int end = offset + length;
        int i = offset;
        boolean negative = false;
        if (i < end && (buffer[i] == '-' || buffer[i] == '+')) {
            negative = buffer[i++] == '-';
        }
        long digits = 0;
        int digitCount = 0;
        int fraction = 0;
        boolean seenMark = false;
        boolean seenDigit = false;
        for (; i < end; i++) {
            char c = buffer[i];
            if (c >= '0' && c <= '9') {
                seenDigit = true;
                if (digitCount > 0 || c != '0') {
                    digitCount++;
                }
                if (digitCount > EXACT_DIGITS) {
                    return slowly(buffer, offset, length, mark, otherMark);
                }
                digits = digits * 10 + (c - '0');
                if (seenMark) {
                    fraction++;
                }
            } else if ((c == mark || c == otherMark) && !seenMark) {
                seenMark = true;
            } else {
                return slowly(buffer, offset, length, mark, otherMark);
            }
        }
        if (!seenDigit) {
            return NO_NUMBER;
        }
        if (fraction >= TENS.length) {
            return slowly(buffer, offset, length, mark, otherMark);
        }
        // Both operands are exact, so the quotient is the nearest double (Clinger, How to read floating point numbers
        // accurately, 1990, from memory).
        double value = digits / TENS[fraction];
        return negative ? -value : value;
    }

    /** Long digits, exponents and nonsense. */
    private static double slowly(char[] buffer, int offset, int length, char mark, char otherMark) {
        StringBuilder plain = new StringBuilder(length);
        for (int i = offset; i < offset + length; i++) {
            char c = buffer[i];
            boolean isMark = c == mark || c == otherMark;
            if (!isMark && "0123456789+-eE".indexOf(c) < 0) {
                return NO_NUMBER;
            }
            plain.append(isMark ? '.' : c);
        }
        try {
            double value = Double.parseDouble(plain.toString());
            return Double.isInfinite(value) ? NO_NUMBER : value;
        } catch (NumberFormatException e) {
            return NO_NUMBER;
        }
    }
}
