package linehold.rig.paper;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.drive.LogDrive;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * No test: prints how long a day at 100 rows a second takes from the first question to the last close-up, for
 * docs/performance.md.
 */
class DayRunLoad {
    private static final int HOURS = 24;
    private static final double OIL_C = 60;
    private static final int POINTS = 2400;

    @TempDir
    private Path folder;

    @Test
    void measure() throws IOException, InterruptedException {
        Path log = folder.resolve("day.csv");
        DayLog.write(log, HOURS, 1);
        Build build = BuildFile.loadNamed("demonstration");
        try (DriveBook drives = new DriveBook(build);
                TraceBook traces = new TraceBook(
                        drives, new BuildShelf(build, folder), List.of(new Worker("run")), System::nanoTime)) {
            long beginNs = System.nanoTime();
            long beginCpuNs = processorNs();
            drives.put("day.csv", LogDrive.of(log, build));
            TraceBook.Run run = ask(traces, -1e8, 1e8);
            tell(
                    "log of %.0f MB; whole run of %.0f s after %.1f s, %.1f s of processor time",
                    Files.size(log) / 1e6, run.part().endS(), since(beginNs), (processorNs() - beginCpuNs) * 1e-9);
            double endS = run.part().endS();
            assertThat(endS).isGreaterThan(HOURS * 3600 - 1);
            Random random = new Random(1);
            for (double widthS : new double[] {86400, 36000, 3600, 600, 60, 5}) {
                times(traces, random, endS, widthS);
            }
        }
        Runtime java = Runtime.getRuntime();
        System.gc();
        tell("%.0f MB of heap in use", (java.totalMemory() - java.freeMemory()) / 1e6);
    }

    private static void times(TraceBook traces, Random random, double endS, double widthS) throws InterruptedException {
        double[] ms = new double[400];
        for (int i = 0; i < ms.length; i++) {
            double fromS = random.nextDouble() * Math.max(0, endS - widthS);
            long beginNs = System.nanoTime();
            ask(traces, fromS, fromS + widthS);
            ms[i] = since(beginNs) * 1e3;
        }
        Arrays.sort(ms);
        tell(
                "%.0f s in sight: half within %.2f ms, 95 %% within %.2f ms, worst %.1f ms",
                widthS, ms[ms.length / 2], ms[ms.length * 95 / 100], ms[ms.length - 1]);
    }

    private static TraceBook.Run ask(TraceBook traces, double fromS, double toS) throws InterruptedException {
        TraceBook.Shown shown = new TraceBook.Shown(fromS, toS, POINTS, UnitSystem.METRIC);
        TraceBook.Answer answer = traces.ask("day.csv", OIL_C, "", shown);
        while (answer.run() == null) {
            Thread.sleep(50);
            answer = traces.ask("day.csv", OIL_C, "", shown);
        }
        return answer.run();
    }

    private static long processorNs() {
        return ((OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean()).getProcessCpuTime();
    }

    private static double since(long beginNs) {
        return (System.nanoTime() - beginNs) * 1e-9;
    }

    private static void tell(String format, Object... values) {
        System.out.printf(Locale.ROOT, format + "%n", values);
    }
}
