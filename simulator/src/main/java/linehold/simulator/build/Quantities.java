package linehold.simulator.build;

import java.math.BigDecimal;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads and writes {@code value unit}: {@code 130 psi}, {@code 0.6 L}, {@code -20 °C}.
 *
 * <p>The decimal mark is a point. Any kind of space may stand between value and unit, or none. Spellings that mean the
 * same are accepted: {@code N·m}, {@code N.m} and {@code Nm}; {@code cm³} and {@code cm3}; {@code Ω} and {@code ohm};
 * {@code l} and {@code L}; {@code degC} and {@code °C}; {@code ft.lbf} and {@code lbf.ft}. Letter case counts
 * otherwise, because {@code mV} and {@code MV} differ.
 */
public final class Quantities {
    /** Length limits keep absurd input from becoming absurd work. */
    private static final Pattern TYPED = Pattern.compile(
            "([+-]?(?:[0-9]{1,30}(?:\\.[0-9]{0,30})?|\\.[0-9]{1,30})(?:[eE][+-]?[0-9]{1,3})?) *(.{0,20})");

    private static final Map<String, String> SAME_UNIT = Map.ofEntries(
            Map.entry("Nm", "N.m"),
            Map.entry("lbfft", "lbf.ft"),
            Map.entry("ft.lbf", "lbf.ft"),
            Map.entry("in.lbf", "lbf.in"),
            Map.entry("l", "L"),
            Map.entry("ml", "mL"),
            Map.entry("l/min", "L/min"),
            Map.entry("degC", "°C"),
            Map.entry("degF", "°F"),
            Map.entry("°", "deg"));

    private Quantities() {}

    /** The SI value of what a person typed, or empty where it is not such a quantity. */
    public static OptionalDouble parse(String typed, Quantity quantity) {
        Matcher matcher = TYPED.matcher(plainSpaces(typed));
        if (!matcher.matches()) {
            return OptionalDouble.empty();
        }
        BigDecimal value = new BigDecimal(matcher.group(1));
        return quantity.unit(matcher.group(2)).stream()
                .mapToDouble(unit -> unit.toSi(value))
                .findFirst();
    }

    /**
     * A value in the given unit as this class reads it, to 7 significant digits (relative rounding below 1e-6) and
     * without needless zeros.
     */
    public static String write(double si, Unit unit) {
        return write(si, unit, 7);
    }

    static String write(double si, Unit unit, int significantDigits) {
        String number = digits(unit.fromSi(si), significantDigits);
        return unit.label().isEmpty() ? number : number + " " + unit.label();
    }

    private static String digits(double value, int significantDigits) {
        if (value == 0) {
            return "0";
        }
        double size = Math.abs(value);
        if (size < 1e-3 || size >= 1e7) {
            String[] parts = String.format(Locale.ROOT, "%." + (significantDigits - 1) + "e", value)
                    .split("e");
            return withoutTrailingZeros(parts[0]) + "e" + Integer.parseInt(parts[1]);
        }
        int decimals = Math.max(0, significantDigits - 1 - (int) Math.floor(Math.log10(size)));
        return withoutTrailingZeros(String.format(Locale.ROOT, "%." + decimals + "f", value));
    }

    private static String withoutTrailingZeros(String number) {
        return number.indexOf('.') < 0 ? number : number.replaceAll("0+$", "").replaceAll("\\.$", "");
    }

    /** The label in the one spelling that {@link Quantity} lists. */
    static String plainUnit(String label) {
        String plain = plainSpaces(label)
                .replace(" ", "")
                .replace('·', '.')
                .replace('⋅', '.')
                .replace('²', '2')
                .replace('³', '3')
                .replace('⁶', '6')
                .replace('º', '°')
                .replace("\u03a9", "ohm")
                .replace("\u2126", "ohm");
        return SAME_UNIT.getOrDefault(plain, plain);
    }

    /** Every space a word processor or a data sheet may hide in a number becomes a plain one; so does a true minus. */
    private static String plainSpaces(String text) {
        return text.replaceAll("[\\p{Zs}]", " ").replace('−', '-').strip();
    }
}
