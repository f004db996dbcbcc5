package linehold.controller.calibration;

import java.util.Objects;

/**
 * A calibration that may not run: a value out of its bounds, or two values that contradict each other. The message names
 * key, value, and the allowed range or the other key; {@link #key} lets a reader of a file add the place.
 */
public final class CalibrationException extends RuntimeException {
    private final transient Key key;

    public CalibrationException(Key key, String message) {
        super(message);
        this.key = Objects.requireNonNull(key, "key");
    }

    /** The key to look at first. */
    public Key key() {
        return key;
    }
}
