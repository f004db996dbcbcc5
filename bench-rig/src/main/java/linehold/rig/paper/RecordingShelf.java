package linehold.rig.paper;

import java.nio.file.Path;
import java.util.List;

/** The recordings of a rig, as far as they can become drives. */
public interface RecordingShelf {
    /**
     * A recording.
     *
     * @param start UTC, as text
     * @param lengthS from its first kept tick to its last one, s
     * @param ticks how many are kept
     * @param source which rig
     * @param end how it ended: in order, cut off, or running
     * @param problem why it cannot be read; else null, and null is then all but the number
     */
    record Line(long id, String start, Double lengthS, Long ticks, String source, String end, String problem) {}

    /** The youngest first. */
    List<Line> lines();

    /**
     * Writes one as a log in our own format.
     *
     * @throws linehold.simulator.build.InputException where there is no such recording, or it cannot be read or written
     */
    void writeDrive(long id, Path file);
}
