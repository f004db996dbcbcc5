package linehold.rig.adapter.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import linehold.rig.adapter.store.RecordedEvent.Kind;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRow;
import linehold.simulator.build.InputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RecorderTest {
    @TempDir
    private Path folder;

    private final TestRig rig = new TestRig();

    /** Opens a real store as many times as it is told, and fails otherwise. */
    private final class FlakyStore implements BlockSink.Opener {
        private final RecordingOpener real =
                new RecordingOpener(folder, rig.facts(), RecordingLimits.DEFAULT, InstantSource.system());
        private volatile long pages = Long.MAX_VALUE;

        @Override
        public BlockSink open() throws SQLException, IOException {
            RecordingWriter writer = (RecordingWriter) real.open();
            if (pages != Long.MAX_VALUE) {
                writer.limitPages(pages);
            }
            return writer;
        }

        @Override
        public void close() throws IOException {
            real.close();
        }
    }

    private void record(String drive, long mostTicks) {
        record(rig, drive, mostTicks);
    }

    private void record(TestRig what, String drive, long mostTicks) {
        try (Recorder recorder =
                Recorder.open(folder, what.facts(), what.ring.follow(), what.faults, RecordingLimits.DEFAULT)) {
            recorder.start();
            what.drive(drive, List.of(), mostTicks);
        }
    }

    private List<double[]> recorded(long id) {
        List<double[]> rows = new ArrayList<>();
        try (Recording recording = new Recordings(folder).open(id);
                RecordedRows reader = recording.rows()) {
            double[] row = new double[recording.fields().size()];
            while (reader.next(row)) {
                rows.add(row.clone());
            }
        }
        return rows;
    }

    private static void assertSameBits(double[] actual, double[] expected, String what) {
        for (int i = 0; i < expected.length; i++) {
            assertThat(Double.doubleToRawLongBits(actual[i]))
                    .as("%s, place %d: %s and %s", what, i, actual[i], expected[i])
                    .isEqualTo(Double.doubleToRawLongBits(expected[i]));
        }
    }

    @Test
    void shouldKeepEveryBitOfEveryTickAndEveryEvent() {
        record("stop-and-go", 12_000);
        List<double[]> kept = recorded(1);
        assertThat(kept).hasSize(12_000);
        for (int i = 0; i < kept.size(); i++) {
            assertSameBits(kept.get(i), rig.rows.get(i), "tick " + i);
        }
        try (Recording recording = new Recordings(folder).open(1)) {
            assertThat(recording.integrity()).isEqualTo("ok");
            assertThat(recording.hasFieldsOfThisRelease()).isTrue();
            List<RecordedEvent> states = recording.events().stream()
                    .filter(event -> event.kind() == Kind.STATE)
                    .toList();
            assertThat(states)
                    .extracting(event -> event.name().split(" ")[0])
                    .contains("PRIME", "ELECTRIC", "INTERNAL");
            for (RecordedEvent event : states) {
                double[] row = rig.rows.get((int) event.tick());
                assertThat((double) event.nowNs()).isEqualTo(row[TickRow.NOW_NS]);
            }
        }
        RecordingSummary summary = new Recordings(folder).summary(1);
        assertThat(summary.end()).isEqualTo(RecordingSummary.End.IN_ORDER);
        assertThat(summary.ticks()).isEqualTo(12_000);
        assertThat(summary.dropped()).isZero();
        assertThat(summary.lengthNs()).isBetween(59_900_000_000L, 60_100_000_000L);
        assertThat(rig.faults.bits()).isZero();
        assertThat(folder).as("nothing but the recording and the lock").isDirectoryNotContaining("glob:**-wal");
    }

    @Test
    void shouldKeepTheWholeCalibrationAndTheCodesThatWereThereBefore() {
        RecordingFacts before = rig.facts();
        record("parking", 400);
        try (Recording recording = new Recordings(folder).open(1)) {
            RecordingFacts kept = recording.facts();
            assertThat(kept.calibration().checksum())
                    .isEqualTo(before.calibration().checksum());
            assertThat(kept.codeLongs()).isEqualTo(before.codeLongs());
            assertThat(kept.codeDoubles()).isEqualTo(before.codeDoubles());
            assertThat(kept.buildSha256()).isEqualTo(rig.build.sha256());
        }
    }

    @Test
    void shouldStopWithAFaultOnAFullMediumAndGoOnWhenThereIsRoom() throws Exception {
        FlakyStore store = new FlakyStore();
        store.pages = 120;
        try (Recorder recorder = new Recorder(store, rig.ring.follow(), rig.faults, InstantSource.system())) {
            recorder.start();
            rig.afterTick = ticks -> {
                if (ticks == 20_000) {
                    await(() -> stopped());
                    store.pages = Long.MAX_VALUE;
                    sleepMs(2100);
                }
            };
            rig.drive("stop-and-go", List.of(), 20_400);
        }
        assertThat(stopped()).as("it goes on").isFalse();
        try (Recording recording = new Recordings(folder).open(1);
                RecordedRows rows = recording.rows()) {
            assertThat(recording.integrity()).isEqualTo("ok");
            double[] row = new double[recording.fields().size()];
            long kept = 0;
            long missed = 0;
            while (rows.next(row)) {
                kept++;
                missed += rows.missedBefore();
                assertSameBits(row, rig.rows.get((int) rows.tick()), "tick " + rows.tick());
            }
            assertThat(missed).isPositive();
            assertThat(kept + missed).isEqualTo(20_400);
            assertThat(recording.events()).extracting(RecordedEvent::kind).contains(Kind.MISSED);
        }
    }

    @Test
    void shouldSayThatRecordingHasStoppedWhileTheMediumHangs() {
        CountDownLatch hangs = new CountDownLatch(1);
        BlockSink.Opener opener = () -> new BlockSink() {
            @Override
            public void append(BlockBuffer block, List<RecordedEvent> events, long writtenMs) {
                try {
                    hangs.await();
                } catch (InterruptedException e) {
                    throw new IllegalStateException(e);
                }
            }

            @Override
            public void tidy() {}

            @Override
            public void end(String endedUtc) {}

            @Override
            public void abandon() {}
        };
        try (Recorder recorder = new Recorder(opener, rig.ring.follow(), rig.faults, InstantSource.system())) {
            recorder.start();
            rig.drive("parking", List.of(), 400);
            await(this::stopped);
            hangs.countDown();
            await(() -> !stopped());
        }
    }

    private interface Condition {
        boolean holds();
    }

    private static void await(Condition condition) {
        long endNs = System.nanoTime() + 20_000_000_000L;
        while (!condition.holds()) {
            assertThat(System.nanoTime()).as("in time").isLessThan(endNs);
            sleepMs(20);
        }
    }

    private static void sleepMs(long ms) {
        try {
            Thread.sleep(ms);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private boolean stopped() {
        return (rig.faults.bits() & RigFault.RECORDING_STOPPED.bit()) != 0;
    }

    @Test
    void shouldRunOnWithoutAFolderThatCanBeUsed() throws Exception {
        Path file = Files.writeString(folder.resolve("file"), "no folder");
        try (Recorder recorder =
                Recorder.open(file, rig.facts(), rig.ring.follow(), rig.faults, RecordingLimits.DEFAULT)) {
            recorder.start();
            rig.drive("parking", List.of(), 400);
        }
        assertThat(rig.faults.bits()).isEqualTo(RigFault.RECORDING_STOPPED.bit());
    }

    @Test
    void shouldRefuseASecondRecorderInTheSameFolder() throws Exception {
        RigFaults faults = new RigFaults();
        TestRig other = new TestRig();
        try (Recorder first =
                Recorder.open(folder, rig.facts(), rig.ring.follow(), rig.faults, RecordingLimits.DEFAULT)) {
            first.start();
            rig.drive("parking", List.of(), 400);
            await(() -> new Recordings(folder).ids().size() == 1);
            assertThat(new Recordings(folder).summary(1).end()).isEqualTo(RecordingSummary.End.RUNNING);
            assertThat(new Recordings(folder).delete(id -> true))
                    .as("is being written")
                    .isEmpty();
            try (Recorder second =
                    Recorder.open(folder, other.facts(), other.ring.follow(), faults, RecordingLimits.DEFAULT)) {
                second.start();
                other.drive("parking", List.of(), 400);
            }
        }
        assertThat(faults.bits()).isEqualTo(RigFault.RECORDING_STOPPED.bit());
        assertThat(new Recordings(folder).ids()).containsExactly(1L);
        assertThat(recorded(1)).hasSize(400);
    }

    @Test
    void shouldDropTheOldestRecordingsFirstAndThenItsOwnBeginning() throws Exception {
        for (int i = 0; i < 3; i++) {
            record(new TestRig(), "stop-and-go", 4000);
        }
        assertThat(new Recordings(folder).ids()).containsExactly(1L, 2L, 3L);
        long each = new Recordings(folder).summary(2).bytes();

        RecordingFolder tight = new RecordingFolder(folder, new RecordingLimits(1_000_000));
        assertThat(tight.makeRoom(tight.file(3), 1_000_000 - each - each / 2)).isTrue();
        assertThat(new Recordings(folder).ids()).containsExactly(2L, 3L);
        assertThat(tight.makeRoom(tight.file(3), 1_000_001))
                .as("its own beginning must go")
                .isFalse();
        assertThat(new Recordings(folder).ids()).containsExactly(3L);

        RecordingWriter writer = RecordingWriter.begin(tight.file(4), tight, rig.facts(), "2026-01-01T00:00:00Z");
        BlockBuffer block = new BlockBuffer();
        rig.drive("stop-and-go", List.of(), 160);
        for (int n = 0; n < 1000; n++) {
            for (double[] row : rig.rows) {
                block.add(row);
            }
            writer.append(block, List.of(), 0);
            block.next();
            writer.tidy();
        }
        writer.end("2026-01-01T00:00:01Z");
        assertThat(Files.size(tight.file(4))).isBetween(500_000L, 1_050_000L);
        RecordingSummary summary = new Recordings(folder).summary(4);
        assertThat(summary.dropped()).isPositive();
        assertThat(summary.dropped() + summary.ticks()).isEqualTo(160_000);
    }

    @Test
    void shouldFindADamagedBlockAndAFileThatIsNoRecording() throws Exception {
        record("parking", 2000);
        Path file = folder.resolve("000001.lhrec");
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
                Statement statement = connection.createStatement()) {
            statement.execute("UPDATE block SET data = zeroblob(length(data)) WHERE first_tick > 1000");
        }
        assertThatThrownBy(() -> recorded(1))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("000001.lhrec: the block at tick ")
                .hasMessageContaining("is damaged");

        Files.writeString(
                folder.resolve("000002.lhrec"), "this is a text and no database at all, however long it may be");
        assertThatThrownBy(() -> recorded(2)).isInstanceOf(InputException.class).hasMessageContaining("000002.lhrec");
        Files.createFile(folder.resolve("000003.lhrec"));
        assertThatThrownBy(() -> recorded(3))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("found no recording of format 1");
    }
}
