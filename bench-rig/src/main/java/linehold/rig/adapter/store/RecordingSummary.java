package linehold.rig.adapter.store;

import java.time.Instant;
import java.util.SortedSet;

/**
 * A recording in a line.
 *
 * @param start by the machine's clock at its end, since a board without a battery clock learns the time on the way
 * @param lengthNs from the first kept tick to the last one, ns
 * @param bytes on the medium
 * @param states pump states that it has seen
 * @param codes numbers of the trouble codes that were active
 * @param dropped ticks at its beginning that are not kept any more
 */
public record RecordingSummary(
        long id,
        Instant start,
        long lengthNs,
        long bytes,
        long ticks,
        long dropped,
        SortedSet<String> states,
        SortedSet<String> codes,
        End end,
        String rig) {

    /** How it ended. */
    public enum End {
        RUNNING,
        IN_ORDER,
        /** The program or the power went away. */
        CUT
    }

    /** Of the blocks that are kept. */
    record Extent(long firstTick, long firstNs, long lastNs, long writtenMs, long ticks) {}
}
