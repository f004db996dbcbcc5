package linehold.controller.switching;

/** The phases of the electric pump that a person can say aloud. */
public enum PumpState {
    /** Key off and the shaft at rest: nothing needs pressure. */
    OFF(false, "Key off and the shaft at rest: nothing needs pressure."),
    /** The electric pump fills the line after key-on, or after a restart in a rolling car. */
    PRIME(true, "The electric pump fills the line after key-on, or after a restart in a rolling car."),
    /** The electric pump carries the line: the shaft is too slow for the internal pump. */
    ELECTRIC(true, "The electric pump carries the line: the shaft is too slow for the internal pump."),
    /** Both pumps run: the internal pump is fast enough, but the hand-over is not confirmed yet. */
    OVERLAP(true, "Both pumps run: the internal pump is fast enough, but the hand-over is not confirmed yet."),
    /** The internal pump carries the line alone. */
    INTERNAL(false, "The internal pump carries the line alone."),
    /** The electric pump helps because line pressure is low or about to be. */
    HELP(true, "The electric pump helps because line pressure is low or about to be.");

    private final boolean pumpRuns;
    private final String meaning;

    PumpState(boolean pumpRuns, String meaning) {
        this.pumpRuns = pumpRuns;
        this.meaning = meaning;
    }

    /** Whether the electric pump is wanted in this state. */
    public boolean pumpRuns() {
        return pumpRuns;
    }

    /** One sentence for people. */
    public String meaning() {
        return meaning;
    }
}
