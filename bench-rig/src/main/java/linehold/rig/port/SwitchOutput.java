package linehold.rig.port;

/** A line that is switched: a relay's coil, lamp, buzzer. */
public interface SwitchOutput {
    /** Nothing is fitted here. */
    SwitchOutput ABSENT = on -> {};

    /**
     * Called at every tick, also without a change.
     *
     * @param on the coil is energised, the lamp is lit; which level that is on the line is the adapter's matter
     * @throws PortException where the line has failed
     */
    void set(boolean on) throws PortException;
}
