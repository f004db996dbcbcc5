package linehold.rig.adapter.store;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadInfo;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import linehold.rig.adapter.system.SystemClock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A measurement, not a test: what recording costs in real time on the simulated stop-and-go (docs/performance.md).
 * {@code mvn test -pl bench-rig -am -Dtest=RecorderLoad -Dsurefire.failIfNoSpecifiedTests=false}
 */
class RecorderLoad {
    private static final int PERIODS_PER_S = 200;
    private static final double MB = 1e6;
    private static final double S_PER_H = 3600;

    @TempDir
    private Path folder;

    @Test
    void measure() throws Exception {
        TestRig rig = new TestRig();
        ThreadMXBean threads = ManagementFactory.getThreadMXBean();
        long[] cpuNs = new long[1];
        long[] bytes = new long[1];
        int startTicks = 10 * PERIODS_PER_S;
        Path file = folder.resolve("000001.lhrec");
        rig.afterTick = ticks -> {
            rig.rows.clear();
            if (ticks == startTicks) {
                cpuNs[0] = -cpu(threads);
                bytes[0] = -usedBytes(file);
            } else if (ticks > startTicks && ticks % (10 * PERIODS_PER_S) == 0) {
                report(ticks - startTicks, cpuNs[0] + cpu(threads), bytes[0] + usedBytes(file));
            }
        };
        try (Recorder recorder =
                Recorder.open(folder, rig.facts(), rig.ring.follow(), rig.faults, RecordingLimits.DEFAULT)) {
            recorder.start();
            rig.drive("stop-and-go", List.of(), Long.MAX_VALUE, new SystemClock());
        }
        System.out.printf(Locale.ROOT, "file: %d bytes, faults %d%n", Files.size(file), rig.faults.bits());
    }

    private static void report(long ticks, long cpuNs, long bytes) {
        double seconds = (double) ticks / PERIODS_PER_S;
        System.out.printf(
                Locale.ROOT,
                "%4.0f s: %.2f %% of a core, %.2f MB/h%n",
                seconds,
                cpuNs / seconds * 1e-9 * 100,
                bytes / MB / seconds * S_PER_H);
    }

    private static long cpu(ThreadMXBean threads) {
        for (ThreadInfo thread : threads.getThreadInfo(threads.getAllThreadIds())) {
            if (thread != null && thread.getThreadName().equals("recorder")) {
                return threads.getThreadCpuTime(thread.getThreadId());
            }
        }
        throw new IllegalStateException("no recorder runs");
    }

    /** Pages in use, by the database itself: the file grows only when its log is written back. */
    private static long usedBytes(Path file) {
        try (Recording recording = Recording.open(file)) {
            return recording.usedBytes();
        }
    }
}
