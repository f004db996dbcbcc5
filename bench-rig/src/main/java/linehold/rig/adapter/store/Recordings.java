package linehold.rig.adapter.store;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Predicate;
import linehold.simulator.build.InputException;

/** The recordings of a folder, for people. */
public final class Recordings {
    private final Path path;
    private final RecordingFolder folder;

    public Recordings(Path folder) {
        path = folder;
        this.folder = new RecordingFolder(folder, RecordingLimits.DEFAULT);
    }

    /** Numbers of the recordings, oldest first. */
    public List<Long> ids() {
        try {
            return folder.ids();
        } catch (IOException e) {
            throw failed(e);
        }
    }

    /** The number of the youngest one. */
    public long youngest() {
        return ids().stream()
                .max(Comparator.naturalOrder())
                .orElseThrow(
                        () -> new InputException(path + ": has no recordings, expected a folder where a rig recorded"));
    }

    /** @throws InputException where there is none of this number, or it cannot be read */
    public Recording open(long id) {
        return Recording.open(folder.file(id));
    }

    /** One recording in a line. */
    public RecordingSummary summary(long id) {
        // Before it is opened: that puts a file beside it.
        long bytes = bytes(id);
        try (Recording recording = open(id)) {
            RecordingSummary.Extent extent = recording.extent();
            long lengthNs = extent.lastNs() - extent.firstNs();
            Instant start = extent.ticks() == 0
                    ? Instant.parse(recording.fact(Schema.FACT_STARTED))
                    : Instant.ofEpochMilli(extent.writtenMs()).minusNanos(lengthNs);
            SortedSet<String> states = new TreeSet<>();
            SortedSet<String> codes = new TreeSet<>();
            for (RecordedEvent event : recording.events()) {
                switch (event.kind()) {
                    case STATE -> states.add(event.name().split(" ")[0]);
                    case CODE_RAISED -> codes.add(event.name());
                    case CODE_CLEARED, RIG_FAULT, RIG_FAULT_OVER, MISSED, MORE -> {}
                }
            }
            return new RecordingSummary(
                    id,
                    start,
                    lengthNs,
                    bytes,
                    extent.ticks(),
                    extent.firstTick(),
                    states,
                    codes,
                    end(id, recording),
                    recording.fact(Schema.FACT_RIG));
        } catch (IOException e) {
            throw failed(e);
        }
    }

    private RecordingSummary.End end(long id, Recording recording) throws IOException {
        if (recording.fact(Schema.FACT_ENDED) != null) {
            return RecordingSummary.End.IN_ORDER;
        }
        return id == youngest() && isRunning() ? RecordingSummary.End.RUNNING : RecordingSummary.End.CUT;
    }

    private boolean isRunning() throws IOException {
        try (RecordingFolder.Lock lock = folder.lock()) {
            return lock == null;
        }
    }

    /**
     * Deletes recordings, but never the one that is being written.
     *
     * @return what was deleted, oldest first
     */
    public List<Long> delete(Predicate<Long> doomed) {
        List<Long> deleted = new ArrayList<>();
        if (ids().isEmpty()) {
            return deleted;
        }
        try (RecordingFolder.Lock lock = folder.lock()) {
            long running = lock == null ? youngest() : 0;
            for (long id : folder.ids()) {
                if (id != running && doomed.test(id)) {
                    folder.delete(id);
                    deleted.add(id);
                }
            }
            return deleted;
        } catch (IOException e) {
            throw failed(e);
        }
    }

    /** Deletes those that began longer ago than this. */
    public List<Long> deleteOlderThan(Duration age) {
        Instant oldest = Instant.now().minus(age);
        return delete(id -> summary(id).start().isBefore(oldest));
    }

    /** Deletes the oldest ones until all together take no more than this. */
    public List<Long> shrinkTo(long mostBytes) {
        long[] bytes = {0};
        for (long id : ids()) {
            bytes[0] += bytes(id);
        }
        return delete(id -> {
            boolean doomed = bytes[0] > mostBytes;
            bytes[0] -= doomed ? bytes(id) : 0;
            return doomed;
        });
    }

    private long bytes(long id) {
        try {
            return folder.bytes(id);
        } catch (IOException e) {
            throw failed(e);
        }
    }

    private InputException failed(IOException e) {
        return new InputException(
                path + ": found no way to use it (" + e.getClass().getSimpleName()
                        + "), expected a folder of recordings",
                e);
    }
}
