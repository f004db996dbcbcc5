package linehold.rig.adapter.store;

/**
 * Something that changed at a tick.
 *
 * @param tick number of the tick since the recording's start
 * @param nowNs time of the tick, ns, on the rig's clock
 * @param name state and its reason, number of a trouble code, name of a rig fault, or a count
 */
public record RecordedEvent(long tick, long nowNs, Kind kind, String name) {
    /** What changed. */
    public enum Kind {
        STATE,
        CODE_RAISED,
        CODE_CLEARED,
        RIG_FAULT,
        RIG_FAULT_OVER,
        /** So many ticks before this one were not recorded. */
        MISSED,
        /** So many events of this block are only in its rows. */
        MORE
    }
}
