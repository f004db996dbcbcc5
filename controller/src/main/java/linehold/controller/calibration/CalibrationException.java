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

    /** A set that is refused as a whole. */
    CalibrationException(String message) {
        super(message);
        key = null;
    }

    /** The key to look at first; null where the set is refused as a whole. */
    public Key key() {
        return key;
    }
}
