package linehold.controller.switching;

/** The phases of the electric pump that a person can say aloud. */
public enum PumpState {
    /** Key off and the shaft at rest: nothing needs pressure. */
    OFF,
    /** Key on, the electric pump fills the line. */
    PRIME,
    /** The electric pump carries the line: the shaft is too slow for the internal pump. */
    ELECTRIC,
    /** Both pumps run: the internal pump is fast enough, but the hand-over is not confirmed yet. */
    OVERLAP,
    /** The internal pump carries the line alone. */
    INTERNAL,
    /** The electric pump helps because line pressure is low or about to be. */
    HELP
}
