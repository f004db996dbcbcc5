package linehold.rig.app;

import java.nio.file.Path;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import linehold.rig.adapter.store.Recording;
import linehold.rig.adapter.store.RecordingSummary;
import linehold.rig.adapter.store.Recordings;
import linehold.rig.paper.RecordingShelf;
import linehold.simulator.build.InputException;

/** A folder of recordings for the page. */
final class RigRecordings implements RecordingShelf {
    private static final DateTimeFormatter START =
            DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm:ss", Locale.ROOT).withZone(ZoneOffset.UTC);

    private final Recordings recordings;

    RigRecordings(Path folder) {
        recordings = new Recordings(folder);
    }

    @Override
    public List<Line> lines() {
        List<Line> lines = new ArrayList<>();
        for (long id : recordings.ids()) {
            lines.add(0, line(id));
        }
        return lines;
    }

    private Line line(long id) {
        try {
            RecordingSummary summary = recordings.summary(id);
            return new Line(
                    id,
                    START.format(summary.start()),
                    summary.lengthNs() / 1e9,
                    summary.ticks(),
                    summary.rig(),
                    RecordingsCommand.word(summary.end()),
                    null);
        } catch (InputException e) {
            return new Line(id, null, null, null, null, null, e.getMessage());
        }
    }

    @Override
    public void writeDrive(long id, Path file) {
        try (Recording recording = recordings.open(id)) {
            RecordingCsv.writeDrive(recording, file);
        }
    }
}
