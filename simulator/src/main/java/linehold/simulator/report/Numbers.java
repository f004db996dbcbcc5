package linehold.simulator.report;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** Numbers as text, the same on every machine. */
final class Numbers {
    private Numbers() {}

    /** A value with a fixed number of decimals; a dash where there is no value. */
    static String fixed(double value, int decimals) {
        if (!Double.isFinite(value)) {
            return "–";
        }
        BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
        return (rounded.signum() == 0 ? rounded.abs() : rounded).toPlainString();
    }

    /** A place on a drawing: one decimal at most, the shortest way to write it. */
    static String place(double px) {
        return tenths(Math.round(px * 10));
    }

    static String tenths(long tenths) {
        long whole = Math.abs(tenths) / 10;
        long rest = Math.abs(tenths) % 10;
        String sign = tenths < 0 ? "-" : "";
        if (rest == 0) {
            return sign + whole;
        }
        return sign + (whole == 0 ? "" : whole) + "." + rest;
    }
}
