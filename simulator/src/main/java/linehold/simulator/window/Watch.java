package linehold.simulator.window;

/** Looks on while long work is done. */
@FunctionalInterface
public interface Watch {
    /**
     * A stage of the work begins.
     *
     * @return to be called after each of its steps, from any thread
     */
    Runnable begin(String stage, int steps);

    /** Does not look. */
    Watch NOBODY = (stage, steps) -> () -> {};
}
