package linehold.simulator.build;

/** Where a good value of a key comes from. */
public enum Provenance {
    /** Measured on the part or the car. */
    MEASURED("measured"),
    /** Printed by a maker, a standard or a handbook. */
    PUBLISHED("published"),
    /** What the trade does; no source. */
    COMMON_PRACTICE("common practice"),
    /** Nobody knows better yet. */
    ASSUMED("assumed");

    private final String text;

    Provenance(String text) {
        this.text = text;
    }

    public String text() {
        return text;
    }
}
