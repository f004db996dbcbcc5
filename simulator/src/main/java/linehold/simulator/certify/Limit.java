package linehold.simulator.certify;

/** What sets the guaranteed lowest pressure in a slice. */
public enum Limit {
    INTERNAL_PUMP("the internal pump alone at the last speed that the pickup shows as enough"),
    TAKE_OVER("the time until the electric pump has taken over"),
    STANDSTILL("what the electric pump holds with the shaft at rest"),
    NOTHING_HELD("no pressure is certain at all");

    private final String words;

    Limit(String words) {
        this.words = words;
    }

    public String words() {
        return words;
    }
}
