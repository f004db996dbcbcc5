package linehold.simulator.size;

import java.util.List;
import linehold.simulator.build.UnitSystem;

/**
 * One line of the sizing sheet.
 *
 * @param key a name that stays the same from run to run, for comparing them
 * @param title what was asked
 * @param formula the equation, as text
 * @param inputs what went in
 * @param result what came out; NaN where inputs are missing
 * @param measure how the result is shown
 * @param limit what the result is held against; null for a figure for information
 * @param source where formula and limit come from; a rule without source says so
 * @param note what a reader should know, or empty
 * @param missing keys of the build file that it lacks
 */
public record SizeLine(
        String key,
        Topic topic,
        String title,
        String formula,
        List<Input> inputs,
        double result,
        Measure measure,
        Limit limit,
        SizeVerdict verdict,
        String source,
        String note,
        List<String> missing) {

    /**
     * One number that went in.
     *
     * @param name symbol or words
     */
    public record Input(String name, double value, Measure measure) {
        public String text(UnitSystem units) {
            return name + " = " + measure.text(value, units);
        }
    }

    /**
     * @param ok from here on, on the good side, there is the usual reserve
     * @param must beyond this the part is not enough
     * @param atLeast whether more is better
     */
    public record Limit(double ok, double must, boolean atLeast) {
        SizeVerdict judge(double result) {
            // Doubt counts against the part: a result that is no number is not enough.
            if (atLeast ? result >= ok : result <= ok) {
                return SizeVerdict.OK;
            }
            return (atLeast ? result >= must : result <= must) ? SizeVerdict.TIGHT : SizeVerdict.NOT_ENOUGH;
        }
    }

    public SizeLine {
        inputs = List.copyOf(inputs);
        missing = List.copyOf(missing);
    }

    /** The result for a reader; a dash where there is none. */
    public String resultText(UnitSystem units) {
        return measure.text(result, units);
    }

    /** The limit for a reader: {@code ≥ 1.20}; empty for a figure for information. */
    public String limitText(UnitSystem units) {
        return limit == null ? "" : sign() + measure.text(limit.ok(), units);
    }

    /** Where the part is no longer enough: {@code ≥ 1.00}; empty for a figure for information. */
    public String mustText(UnitSystem units) {
        return limit == null ? "" : sign() + measure.text(limit.must(), units);
    }

    private String sign() {
        return limit.atLeast() ? "≥ " : "≤ ";
    }
}
