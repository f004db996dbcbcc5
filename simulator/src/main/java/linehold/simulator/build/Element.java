package linehold.simulator.build;

/** The apply elements of the transmission; {@code ordinal()} is their place in arrays. */
public enum Element {
    LOW_BAND,
    HIGH_CLUTCH,
    REVERSE_CLUTCH;

    public static final int COUNT = values().length;
}
