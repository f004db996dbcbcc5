package linehold.rig.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import linehold.rig.adapter.store.Recorder;
import linehold.rig.adapter.store.Recording;
import linehold.rig.adapter.store.RecordingLimits;
import linehold.rig.adapter.store.Recordings;
import linehold.rig.adapter.store.TestRig;
import linehold.rig.paper.DriveBook;
import linehold.rig.paper.OwnLogs;
import linehold.rig.paper.RecordingShelf.Line;
import linehold.simulator.build.InputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Recordings as the page sees them. */
class RigRecordingsTest {
    private static final int TICKS = 4000;

    @TempDir
    private Path folder;

    private final TestRig rig = new TestRig();

    private Path recordings() {
        return folder.resolve("recordings");
    }

    private Recorder recorder() {
        return Recorder.open(recordings(), rig.facts(), rig.ring.follow(), rig.faults, RecordingLimits.DEFAULT);
    }

    private void record() {
        try (Recorder recorder = recorder()) {
            recorder.start();
            rig.drive("stop-and-go", List.of(), TICKS);
        }
    }

    private OwnLogs logs() {
        return new OwnLogs(new DriveBook(rig.build), folder.resolve("logs"), new RigRecordings(recordings()));
    }

    @Test
    void shouldListNothingWhereNothingWasRecorded() {
        assertThat(logs().recordings()).isEmpty();
        assertThat(recordings()).doesNotExist();
    }

    @Test
    void shouldTakeARecordingAsTheLogThatTheCommandExports() throws IOException {
        record();
        OwnLogs logs = logs();
        List<Line> lines = logs.recordings();
        assertThat(lines).hasSize(1);
        Line line = lines.get(0);
        assertThat(line.start()).matches("\\d{4}-\\d\\d-\\d\\d \\d\\d:\\d\\d:\\d\\d");
        assertThat(line.ticks()).isEqualTo(TICKS);
        assertThat(line.lengthS()).isBetween(19.0, 21.0);
        assertThat(line.end()).isEqualTo("in order");
        assertThat(line.source()).isEqualTo("simulated");

        String file = logs.take(1);
        Path exported = folder.resolve("exported.csv");
        try (Recording recording = new Recordings(recordings()).open(1)) {
            RecordingCsv.writeDrive(recording, exported);
        }
        assertThat(folder.resolve("logs").resolve(file)).hasSameBinaryContentAs(exported);
        assertThat(logs.logs()).containsExactly(new OwnLogs.Log(file, Files.size(exported), false, null));
        assertThatThrownBy(() -> logs.take(1))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("of that name");
        assertThatThrownBy(() -> logs.take(2))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("number 2");
    }

    @Test
    void shouldTakeARunningRecordingAsFarAsItIsWritten() {
        try (Recorder recorder = recorder()) {
            recorder.start();
            rig.drive("stop-and-go", List.of(), TICKS);
            OwnLogs logs = logs();
            long endNs = System.nanoTime() + 20_000_000_000L;
            while (logs.recordings().get(0).ticks() == 0) {
                assertThat(System.nanoTime()).isLessThan(endNs);
            }
            assertThat(logs.recordings().get(0).end()).isEqualTo("running");
            String file = logs.take(1);
            assertThat(logs.logs().get(0).file()).isEqualTo(file);
            assertThat(logs.logs().get(0).problem()).isNull();
        }
    }

    @Test
    void shouldTellOfARecordingThatCannotBeReadAndListTheOthers() throws IOException {
        record();
        Files.writeString(recordings().resolve("000002.lhrec"), "no recording");
        List<Line> lines = logs().recordings();
        assertThat(lines).hasSize(2);
        assertThat(lines.get(0).problem()).contains("000002.lhrec");
        assertThat(lines.get(1).problem()).isNull();
        assertThatThrownBy(() -> logs().take(2)).isInstanceOf(InputException.class);
    }
}
