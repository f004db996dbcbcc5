package linehold.rig.port;

/** A line that is on or off: key, brake switch. */
public interface SwitchInput {
    /** @throws PortException where the line has failed; the loop then goes on with what is safe */
    boolean read() throws PortException;
}
