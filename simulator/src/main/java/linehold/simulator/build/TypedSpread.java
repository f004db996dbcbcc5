package linehold.simulator.build;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A value with its spread as a person types it: {@code 24 cm3/rev ± 5 %}, {@code 1.0 mm +- 0.05 mm}. A percentage is one
 * of the value; anything else is in a unit of the quantity, for a temperature a difference.
 *
 * @param value what stands before the sign
 * @param spread what stands behind it
 */
record TypedSpread(String value, String spread) {
    /** The signs, as a regular expression. */
    static final String SIGN = "(?:±|\\+-|\\+/-)";

    private static final Pattern TYPED = Pattern.compile("(.*?)\\s*" + SIGN + "\\s*(.*)");

    /** Empty where there is no such sign. */
    static Optional<TypedSpread> of(String text) {
        Matcher matcher = TYPED.matcher(text);
        return matcher.matches()
                ? Optional.of(new TypedSpread(matcher.group(1), matcher.group(2).strip()))
                : Optional.empty();
    }

    boolean isShare() {
        return spread.endsWith("%");
    }

    /** How far the value lies off to either side at most, SI; empty where the spread is no such quantity, or not above 0. */
    OptionalDouble si(Quantity quantity, double nominal) {
        OptionalDouble typed = isShare() ? share(quantity) : Quantities.parse(spread, difference(quantity));
        double scale = isShare() ? Math.abs(nominal) : 1;
        return typed.stream().map(x -> x * scale).filter(x -> x > 0).findFirst();
    }

    private OptionalDouble share(Quantity quantity) {
        // a percentage of a temperature would depend on where its scale begins
        return quantity == Quantity.TEMPERATURE ? OptionalDouble.empty() : Quantities.parse(spread, Quantity.RATIO);
    }

    /** The quantity of a difference of two values. */
    static Quantity difference(Quantity quantity) {
        return quantity == Quantity.TEMPERATURE ? Quantity.TEMPERATURE_DIFFERENCE : quantity;
    }

    /** The end of a message. */
    static String expected(Quantity quantity) {
        return switch (quantity) {
            case TEMPERATURE ->
                "a temperature difference above 0 (" + difference(quantity).labels() + ")";
            case RATIO -> "a percentage above 0 such as '5 %', or a number";
            default -> "a percentage above 0 such as '5 %', or " + quantity.noun() + " (" + quantity.labels() + ")";
        };
    }
}
