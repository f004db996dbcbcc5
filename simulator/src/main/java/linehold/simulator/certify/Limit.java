package linehold.simulator.certify;

/** What sets the guaranteed lowest pressure in a slice. */
public enum Limit {
    INTERNAL_PUMP("internal pump", "the internal pump alone at the last speed that the pickup shows as enough"),
    TAKE_OVER("take-over", "the time until the electric pump has taken over"),
    STANDSTILL("standstill", "what the electric pump holds with the shaft at rest"),
    NOTHING_HELD("nothing held", "no pressure that is certain at all");

    private final String title;
    private final String words;

    Limit(String title, String words) {
        this.title = title;
        this.words = words;
    }

    /** For a column. */
    public String title() {
        return title;
    }

    /** For a sentence. */
    public String words() {
        return words;
    }
}
