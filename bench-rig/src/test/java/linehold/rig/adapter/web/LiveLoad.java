package linehold.rig.adapter.web;

import java.io.BufferedReader;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.net.Socket;
import java.net.URI;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CompletableFuture;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A measurement, not a test: what ten viewers of the live feed and one who never reads get, and what they cost the ticks
 * (docs/performance.md). The rig is a program of its own, without real-time priority.
 * {@code mvn test -pl bench-rig -am -Dtest=LiveLoad -Dsurefire.failIfNoSpecifiedTests=false}
 */
class LiveLoad {
    private static final long SETTLE_MS = 8000;
    private static final long MEASURE_MS = 40_000;
    private static final double MS = 1e-6;

    @TempDir
    private Path folder;

    @Test
    void measure() throws Exception {
        for (int viewers : new int[] {0, 10, 0, 10}) {
            run(viewers);
        }
    }

    private void run(int viewers) throws Exception {
        Process rig = new ProcessBuilder(
                        "java",
                        "-Xmx400m",
                        "-XX:+UseZGC",
                        "-XX:MetaspaceSize=96m",
                        "-XX:+UnlockDiagnosticVMOptions",
                        "-XX:GuaranteedSafepointInterval=0",
                        "-cp",
                        System.getProperty("java.class.path"),
                        "linehold.rig.app.Main",
                        "rig",
                        "--drive",
                        "ece-r83",
                        "--for",
                        (SETTLE_MS + MEASURE_MS) / 1000 + 3 + " s",
                        "--port",
                        "0")
                .directory(folder.toFile())
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        try (BufferedReader out = rig.inputReader()) {
            int port = port(out);
            CompletableFuture<String> end =
                    CompletableFuture.supplyAsync(() -> out.lines().reduce("", (before, line) -> line));
            Thread.sleep(SETTLE_MS);
            watch(viewers, port);
            System.out.printf(
                    Locale.ROOT,
                    "%d viewers: %s Load %.1f.%n",
                    viewers,
                    end.get(),
                    ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage());
        } finally {
            rig.destroy();
            rig.waitFor();
        }
    }

    private static int port(BufferedReader out) throws IOException {
        for (String line = out.readLine(); line != null; line = out.readLine()) {
            if (line.startsWith("page: ")) {
                return URI.create(line.substring("page: ".length())).getPort();
            }
        }
        throw new IOException("the rig has no page");
    }

    private static void watch(int viewers, int port) throws Exception {
        if (viewers == 0) {
            Thread.sleep(MEASURE_MS);
            return;
        }
        List<LiveViewers.Reader> readers = new ArrayList<>();
        for (int i = 0; i < viewers; i++) {
            readers.add(LiveViewers.Reader.open(port, false));
        }
        try (Socket silent = LiveViewers.silent(port)) {
            // First comes the past, as fast as it can.
            Thread.sleep(2000);
            long fromNs = System.nanoTime();
            Thread.sleep(MEASURE_MS - 2000);
            for (LiveViewers.Reader reader : readers) {
                report(reader, fromNs);
                reader.close();
            }
        }
    }

    private static void report(LiveViewers.Reader reader, long fromNs) {
        long[] at = reader.arrivedNs().stream()
                .mapToLong(Long::longValue)
                .filter(ns -> ns >= fromNs)
                .toArray();
        long[] gaps = new long[at.length - 1];
        for (int i = 0; i < gaps.length; i++) {
            gaps[i] = at[i + 1] - at[i];
        }
        Arrays.sort(gaps);
        System.out.printf(
                Locale.ROOT,
                "  %.2f updates/s, gaps: half below %.1f ms, 99 %% below %.1f ms, worst %.1f ms%n",
                gaps.length / ((at[at.length - 1] - at[0]) * 1e-9),
                gaps[gaps.length / 2] * MS,
                gaps[gaps.length * 99 / 100] * MS,
                gaps[gaps.length - 1] * MS);
    }
}
