package linehold.rig.port;

/**
 * A port could not do what it was asked: a line is busy, a bus does not answer. For the loop this is a value like any
 * other: an input is then absent at this tick, an output is tried again at the next.
 */
public final class PortException extends Exception {
    private static final long serialVersionUID = 1;

    /** @param message which line or device, and what it answered */
    public PortException(String message) {
        super(message);
    }

    public PortException(String message, Throwable cause) {
        super(message, cause);
    }
}
