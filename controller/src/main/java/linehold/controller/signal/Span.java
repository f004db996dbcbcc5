package linehold.controller.signal;

/** How far a value has moved since a start: the width between its lowest and its highest. */
public final class Span {
    private double lowest = Double.NaN;
    private double highest = Double.NaN;

    /** Forgets what was and starts from a value. */
    public void restart(double value) {
        lowest = value;
        highest = value;
    }

    /** Takes the next value; one that is missing (NaN) makes the width NaN until the next start. */
    public void take(double value) {
        lowest = Math.min(lowest, value);
        highest = Math.max(highest, value);
    }

    /** Highest less lowest; NaN before the first start and where a value was missing. */
    public double width() {
        return highest - lowest;
    }
}
