package linehold.rig.port;

/** Something that resets the board, or restarts the program, unless it hears from a completed tick. */
public interface Watchdog {
    /** Nothing watches. */
    Watchdog NONE = () -> {};

    /** A tick is complete. Does not wait; a watchdog that needs it less often than every tick sees to that itself. */
    void feed();
}
