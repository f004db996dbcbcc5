package linehold.rig.adapter.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import linehold.controller.Controller;
import linehold.controller.tick.TickField;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRow;
import linehold.simulator.build.Builds;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A rig in a process of its own, killed with signal 9 at random moments. More of it than a build wants to wait for:
 * {@code mvn test -pl bench-rig -am -Dtest=CrashTest -Dsurefire.failIfNoSpecifiedTests=false -Dlinehold.crashes=50}
 */
class CrashTest {
    private static final int CRASHES = Integer.getInteger("linehold.crashes", 4);
    private static final long SEED = Long.getLong("linehold.seed", 1);
    private static final long LONGEST_MS = 5000;
    private static final double MOST_LOST_S = 1;
    /** Nothing is kept before the store is open; on a busy machine that takes its time. */
    private static final double MOST_OPENING_S = 3;

    private static final double PERIOD_S = 0.005;

    @TempDir
    private Path folder;

    private Path mark() {
        return folder.resolve("mark");
    }

    /**
     * Runs a rig, kills it, and gives how many ticks it had done.
     *
     * @param ticking the time counts from its first tick, else from the start of its process
     */
    private long kill(boolean ticking, long ms) throws Exception {
        Files.write(mark(), new byte[CrashRig.MARK_BYTES]);
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(List.of("-Xmx200m", "-XX:+UseSerialGC", "-cp", System.getProperty("java.class.path")));
        command.addAll(
                List.of(CrashRig.class.getName(), folder.resolve("recordings").toString(), mark().toString()));
        Process process = new ProcessBuilder(command).inheritIO().start();
        while (ticking && ticks() == 0) {
            assertThat(process.waitFor(5, TimeUnit.MILLISECONDS)).as("starts").isFalse();
        }
        assertThat(process.waitFor(ms, TimeUnit.MILLISECONDS))
                .as("it would run on")
                .isFalse();
        process.destroyForcibly().waitFor();
        return ticks();
    }

    private long ticks() throws IOException {
        return ByteBuffer.wrap(Files.readAllBytes(mark())).getLong(CrashRig.TICKS_AT);
    }

    @Test
    void shouldKeepAWholeStoreAndLoseAtMostASecondWhenKilledAtAnyMoment() throws Exception {
        SplittableRandom random = new SplittableRandom(SEED);
        Recordings recordings = new Recordings(folder.resolve("recordings"));
        double worstS = 0;
        double worstOpeningS = 0;
        int recorded = 0;
        for (int crash = 1; crash <= CRASHES; crash++) {
            boolean ticking = crash % 4 != 0;
            long ms = random.nextLong(LONGEST_MS);
            long before = recordings.ids().size();
            long ticks = kill(ticking, ms);
            String what = "seed " + SEED + ", crash " + crash + " after " + ms + " ms and " + ticks + " ticks";
            long kept = 0;
            if (recordings.ids().size() > before) {
                kept = keptTicks(recordings, recordings.youngest(), what);
                assertCodesSurvive(recordings, recordings.youngest(), what);
            }
            double lostS = (ticks - kept) * PERIOD_S;
            assertThat(lostS).as(what + ": lost, s").isLessThanOrEqualTo(kept > 0 ? MOST_LOST_S : MOST_OPENING_S);
            if (kept > 0) {
                recorded++;
                worstS = Math.max(worstS, lostS);
            } else {
                worstOpeningS = Math.max(worstOpeningS, lostS);
            }
        }
        System.out.printf(
                Locale.ROOT,
                "killed %d times (seed %d); 0 stores damaged; %d times with ticks on record, worst loss %.3f s;"
                        + " else before the first block was full, at most %.3f s%n",
                CRASHES,
                SEED,
                recorded,
                worstS,
                worstOpeningS);
        assertThat(recorded).as("some crashes come while it records").isPositive();
    }

    private static long keptTicks(Recordings recordings, long id, String what) {
        try (Recording recording = recordings.open(id);
                RecordedRows rows = recording.rows()) {
            assertThat(recording.integrity()).as(what).isEqualTo("ok");
            double[] row = new double[recording.fields().size()];
            long kept = 0;
            while (rows.next(row)) {
                assertThat(rows.missedBefore()).as(what).isZero();
                kept++;
            }
            assertThat(recordings.summary(id).end()).isEqualTo(RecordingSummary.End.CUT);
            return kept;
        }
    }

    /** The file of codes can be read, and knows what the recording knew a second before its end. */
    private void assertCodesSurvive(Recordings recordings, long id, String what) {
        RigFaults faults = new RigFaults();
        Controller controller = new Controller(Builds.demonstration().calibration());
        new CodeKeeper(folder.resolve("recordings/trouble-codes.bin"), faults).restore(controller.storedCodes(), 0);
        assertThat(faults.bits()).as(what).isZero();
        long stored = storedASecondBeforeTheEnd(recordings, id);
        assertThat(controller.storedCodes().stored() & stored).as(what).isEqualTo(stored);
    }

    private static long storedASecondBeforeTheEnd(Recordings recordings, long id) {
        List<Long> stored = new ArrayList<>();
        try (Recording recording = recordings.open(id);
                RecordedRows rows = recording.rows()) {
            double[] row = new double[TickRow.LENGTH];
            while (rows.next(row)) {
                stored.add((long) row[TickRow.indexOf(TickField.STORED_CODES)]);
            }
        }
        int at = stored.size() - (int) Math.round(1 / PERIOD_S);
        return at < 0 ? 0 : stored.get(at);
    }
}
