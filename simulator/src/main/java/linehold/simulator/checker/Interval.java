package linehold.simulator.checker;

/**
 * Interval arithmetic with outward rounding: each result contains every value that the operands' values can give. Java's
 * {@code + − · / √} are rounded to nearest (JLS 15.17, 15.18; {@link Math#sqrt}), so one step outward by {@link
 * Math#nextDown} and {@link Math#nextUp} encloses; {@link StrictMath#log10} and {@link StrictMath#pow} err by at most one
 * unit in the last place, so two steps do. Cf. Moore, Kearfott, Cloud, Introduction to Interval Analysis, 2009.
 *
 * @param low lower end
 * @param high upper end
 */
record Interval(double low, double high) {
    static final Interval ZERO = new Interval(0, 0);

    Interval {
        if (!(low <= high)) {
            throw new ArithmeticException("no interval from " + low + " to " + high);
        }
    }

    static Interval of(double value) {
        return new Interval(value, value);
    }

    private static Interval outward(double low, double high) {
        return new Interval(Math.nextDown(low), Math.nextUp(high));
    }

    Interval plus(Interval other) {
        return outward(low + other.low, high + other.high);
    }

    Interval minus(Interval other) {
        return outward(low - other.high, high - other.low);
    }

    Interval times(Interval other) {
        double a = low * other.low;
        double b = low * other.high;
        double c = high * other.low;
        double d = high * other.high;
        return outward(Math.min(Math.min(a, b), Math.min(c, d)), Math.max(Math.max(a, b), Math.max(c, d)));
    }

    Interval times(double factor) {
        return times(of(factor));
    }

    /** @throws ArithmeticException where the divisor contains zero */
    Interval over(Interval other) {
        if (other.low <= 0 && other.high >= 0) {
            throw new ArithmeticException("division by an interval around zero");
        }
        double a = low / other.low;
        double b = low / other.high;
        double c = high / other.low;
        double d = high / other.high;
        return outward(Math.min(Math.min(a, b), Math.min(c, d)), Math.max(Math.max(a, b), Math.max(c, d)));
    }

    /** Of its part at or above zero. */
    Interval root() {
        return new Interval(Math.max(0, Math.nextDown(Math.sqrt(Math.max(0, low)))), Math.nextUp(Math.sqrt(high)));
    }

    Interval log10() {
        return twiceOutward(StrictMath.log10(low), StrictMath.log10(high));
    }

    /** Ten to the power of it. */
    Interval pow10() {
        return twiceOutward(StrictMath.pow(10, low), StrictMath.pow(10, high));
    }

    private static Interval twiceOutward(double low, double high) {
        return new Interval(Math.nextDown(Math.nextDown(low)), Math.nextUp(Math.nextUp(high)));
    }

    Interval min(Interval other) {
        return new Interval(Math.min(low, other.low), Math.min(high, other.high));
    }

    Interval max(Interval other) {
        return new Interval(Math.max(low, other.low), Math.max(high, other.high));
    }

    Interval hull(Interval other) {
        return new Interval(Math.min(low, other.low), Math.max(high, other.high));
    }
}
