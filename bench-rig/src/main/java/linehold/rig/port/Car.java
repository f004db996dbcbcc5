package linehold.rig.port;

/** The whole other side of the ports: a board in a car or on a bench, a simulated car, a recorded run. */
public interface Car extends AutoCloseable {
    InputPorts inputs();

    OutputPorts outputs();

    /** Every fitted input has delivered once. Until then the outputs hold their safe levels. */
    boolean alive();

    /**
     * A tick begins.
     *
     * @return false where there is nothing more to come: the drive, or the recording, has ended
     */
    default boolean begin(long nowNs) {
        return true;
    }

    /** All outputs of this tick are set. */
    default void end() {}

    /** Lets go of all lines. The outputs have been set to their safe levels before. */
    @Override
    void close();
}
