package linehold.rig.adapter.store;

import java.util.List;

/**
 * A column of a recording's rows, as the recording itself names it.
 *
 * @param unit SI, °C for temperature; empty for plain numbers
 * @param choices what the numbers 0, 1, … mean; empty for what is no choice
 */
public record RecordedField(String name, String unit, List<String> choices) {
    public RecordedField {
        choices = List.copyOf(choices);
    }

    /** A value for people: the name of a choice, a whole number without a point, else the shortest exact decimal. */
    public String text(double value) {
        if (!choices.isEmpty()) {
            int choice = (int) value;
            return choice >= 0 && choice < choices.size() ? choices.get(choice) : "";
        }
        return value == Math.rint(value) && Math.abs(value) < 1L << 53
                ? Long.toString((long) value)
                : Double.toString(value);
    }
}
