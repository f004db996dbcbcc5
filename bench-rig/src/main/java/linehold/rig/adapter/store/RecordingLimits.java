package linehold.rig.adapter.store;

/**
 * How much is kept.
 *
 * @param mostBytes all recordings of a folder together; the oldest ones go first
 */
public record RecordingLimits(long mostBytes) {
    /** About four days of driving. */
    public static final RecordingLimits DEFAULT = new RecordingLimits(1_000_000_000L);

    private static final long LEAST_BYTES = 1_000_000;

    public RecordingLimits {
        if (mostBytes < LEAST_BYTES) {
            throw new IllegalArgumentException(
                    "recordings are limited to " + mostBytes + " bytes, least " + LEAST_BYTES);
        }
    }
}
