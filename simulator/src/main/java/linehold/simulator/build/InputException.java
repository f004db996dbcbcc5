package linehold.simulator.build;

/**
 * Something a person gave us cannot be used. The message is one clear sentence that names file, line and column (or
 * row), the key, what was found and what was expected; commands print it and end with status 2.
 */
public final class InputException extends RuntimeException {
    public InputException(String message) {
        super(message);
    }

    public InputException(String message, Throwable cause) {
        super(message, cause);
    }
}
