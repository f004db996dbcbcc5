package linehold.rig.adapter.mqtt;

/**
 * Events that the outbox had no room for.
 *
 * @param count how many
 * @param first {@code seq} of the first
 * @param last {@code seq} of the last; one in between may have been delivered
 */
record Loss(long count, long first, long last) {
    static Loss of(long seq) {
        return new Loss(1, seq, seq);
    }

    /** Both as one; the other may be null. */
    Loss plus(Loss other) {
        return other == null
                ? this
                : new Loss(count + other.count, Math.min(first, other.first), Math.max(last, other.last));
    }
}
