package linehold.simulator.faults;

/**
 * What became of a fault, from harmless to worst. A fault is noticed where the controller raises a trouble code, or
 * withholds or reduces drive, that the healthy car does not have at the same place of the same drive.
 */
public enum Outcome {
    /** No element slipped, line pressure held under every engaged one, and nothing needed to notice. */
    HARMLESS("harmless"),
    /** Noticed, and no element slipped under the torque still permitted. */
    NOTICED_IN_TIME("noticed in time"),
    /** Noticed, and an element slipped all the same, after the notice. */
    SLIP_DESPITE_NOTICE("slip despite notice"),
    /** An element slipped first, the controller noticed later. */
    SLIP_BEFORE_NOTICE("slip before notice"),
    /** An element slipped, or lost its hold pressure, and the controller never said a word. */
    NEVER_NOTICED("never noticed");

    private final String title;

    Outcome(String title) {
        this.title = title;
    }

    public String title() {
        return title;
    }

    /** Whether a build may claim to cover a fault with this outcome. */
    public boolean covered() {
        return this == HARMLESS || this == NOTICED_IN_TIME;
    }
}
