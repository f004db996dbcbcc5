package linehold.rig.adapter.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a loss of power leaves: files whose last writes are cut short or rubbish. */
class PowerLossTest {
    private static final int BLOCKS = 60;

    @TempDir
    private Path folder;

    private final TestRig rig = new TestRig();

    @Test
    void shouldKeepEveryBlockBeforeThePlaceWhereTheLogIsTorn() throws Exception {
        rig.drive("stop-and-go", List.of(), BLOCKS * 120);
        RecordingFolder recordings = new RecordingFolder(folder, RecordingLimits.DEFAULT);
        RecordingWriter writer =
                RecordingWriter.begin(recordings.file(1), recordings, rig.facts(), "2026-01-01T00:00:00Z");
        BlockBuffer block = new BlockBuffer();
        long[] logBytes = new long[BLOCKS];
        Path log = folder.resolve("000001.lhrec-wal");
        for (int n = 0; n < BLOCKS; n++) {
            for (double[] row : rig.rows.subList(n * 120, (n + 1) * 120)) {
                block.add(row);
            }
            writer.append(block, List.of(), 0);
            block.next();
            logBytes[n] = Files.size(log);
        }
        byte[] wholeLog = Files.readAllBytes(log);
        byte[] database = Files.readAllBytes(recordings.file(1));
        writer.abandon();

        for (long seed = 1; seed <= 60; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            int torn = random.nextInt(wholeLog.length);
            byte[] left = Arrays.copyOf(wholeLog, seed % 2 == 0 ? torn : wholeLog.length);
            if (seed % 2 != 0) {
                byte[] rubbish = new byte[left.length - torn];
                random.nextBytes(rubbish);
                System.arraycopy(rubbish, 0, left, torn, rubbish.length);
            }
            Path copy = Files.createDirectory(folder.resolve("copy" + seed));
            Files.write(copy.resolve("000001.lhrec"), database);
            Files.write(copy.resolve("000001.lhrec-wal"), left);
            long whole = Arrays.stream(logBytes).filter(bytes -> bytes <= torn).count();
            assertThat(blocks(copy)).as("seed %d, torn at %d", seed, torn).isEqualTo(whole);
        }
    }

    private static long blocks(Path copy) {
        try (Recording recording = new Recordings(copy).open(1);
                RecordedRows rows = recording.rows()) {
            assertThat(recording.integrity()).isEqualTo("ok");
            double[] row = new double[recording.fields().size()];
            long count = 0;
            while (rows.next(row)) {
                assertThat(rows.missedBefore()).isZero();
                count++;
            }
            assertThat(count % 120).isZero();
            return count / 120;
        }
    }
}
