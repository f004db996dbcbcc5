package linehold.simulator.drive;

import static linehold.simulator.drive.DemonstrationCar.CAR;
import static linehold.simulator.drive.DemonstrationCar.GEARS;
import static org.assertj.core.api.Assertions.assertThat;

import com.sun.management.ThreadMXBean;
import java.io.IOException;
import java.io.PrintWriter;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import linehold.simulator.build.InputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Long logs and damaged logs. */
class LogStreamTest {
    @TempDir
    Path folder;

    private Path hourAt100Hz(String speedColumn, int amplitude) throws IOException {
        Path file = folder.resolve("hour.csv");
        try (PrintWriter out = new PrintWriter(Files.newBufferedWriter(file, StandardCharsets.UTF_8))) {
            out.print("time_s," + speedColumn + ",oil_c\n");
            for (int i = 0; i < 360_000; i++) {
                long speed = Math.round(amplitude * 50 * (1 - Math.cos(i * 2e-4)));
                out.print(i / 100 + "." + i / 10 % 10 + i % 10 + ',' + speed / 100 + '.' + speed / 10 % 10 + speed % 10
                        + ",80.5\n");
            }
        }
        return file;
    }

    /**
     * The rows are streamed: what is allocated for an hour stays far below what its rows would take in memory, 80 bytes
     * each. Not nothing: until Java has compiled the reading, it allocates what it later does without.
     */
    @Test
    void shouldStreamAnHourWithoutKeepingItsRows() throws IOException {
        for (String column : List.of("motor_speed_rpm", "road_speed_km_h")) {
            LogDrive drive = LogDrive.of(hourAt100Hz(column, 60), CAR, GEARS);
            ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
            long before = threads.getThreadAllocatedBytes(Thread.currentThread().getId());
            long rows = 0;
            DriveSample row = new DriveSample();
            double lastS = -1;
            try (DriveReader reader = drive.open()) {
                while (reader.read(row)) {
                    rows++;
                    if (row.timeS <= lastS) {
                        throw new AssertionError("time does not grow at " + row.timeS);
                    }
                    lastS = row.timeS;
                }
                assertThat(reader.repairs().any()).isFalse();
            }
            long bytes = threads.getThreadAllocatedBytes(Thread.currentThread().getId()) - before;
            assertThat(rows).isBetween(360_003L, 360_050L);
            assertThat(bytes / (double) rows)
                    .as("bytes allocated per row of " + column)
                    .isLessThan(30);
        }
    }

    /**
     * Damage of every kind from a seed: whatever is done to a log, it is either read (time growing, all numbers finite,
     * every hurt line accounted for) or refused with one sentence that names the file.
     */
    @Test
    void shouldEitherReadOrRefuseADamagedLog() throws IOException {
        int read = 0;
        int refused = 0;
        for (int seed = 0; seed < 400; seed++) {
            Path file = folder.resolve("dirty.csv");
            Files.writeString(file, dirtyLog(new Random(seed)), StandardCharsets.UTF_8);
            try {
                checkRows(LogDrive.of(file, CAR, GEARS), seed);
                read++;
            } catch (InputException e) {
                assertThat(e.getMessage())
                        .as("seed %d", seed)
                        .startsWith("dirty.csv")
                        .doesNotContain("\n");
                refused++;
            } catch (RuntimeException e) {
                throw new AssertionError("seed " + seed, e);
            }
        }
        assertThat(read).as("logs that could be read").isGreaterThan(100);
        assertThat(refused).as("logs that were refused").isGreaterThan(30);
    }

    private static void checkRows(LogDrive drive, int seed) {
        double lastS = -1;
        for (DriveSample row : DriveRows.of(drive)) {
            assertThat(row.timeS).as("seed %d", seed).isGreaterThan(lastS);
            lastS = row.timeS;
            assertThat(Double.isFinite(row.shaftSpeedRadPerS))
                    .as("seed %d at %s", seed, lastS)
                    .isTrue();
            assertThat(Double.isFinite(row.motorTorqueNm))
                    .as("seed %d at %s", seed, lastS)
                    .isTrue();
            assertThat(row.range).isNotNull();
            assertThat(row.gear).isNotNull();
        }
    }

    private static String dirtyLog(Random random) {
        char separator = ",;\t".charAt(random.nextInt(3));
        String mark = separator == ';' && random.nextBoolean() ? "," : ".";
        boolean road = random.nextBoolean();
        StringBuilder log = new StringBuilder(random.nextInt(4) == 0 ? "\ufeff" : "");
        log.append(random.nextInt(3) == 0 ? "logger started\n\n# serial 12\n" : "");
        log.append("time_s").append(separator).append(road ? "road_speed_km_h" : "motor_speed_rpm");
        log.append(separator).append("range").append(separator).append("oil_c\n");
        double time = random.nextInt(3) * 1000;
        boolean cruel = random.nextInt(3) == 0;
        for (int i = 0; i < 300; i++) {
            time += 0.05;
            String cells = (String.format(java.util.Locale.ROOT, "%.2f", time) + separator
                            + String.format(java.util.Locale.ROOT, "%.1f", Math.max(0, i - 40) * 0.3) + separator + "D"
                            + separator + "60.0")
                    .replace(".", mark);
            log.append(hurt(cells, separator, time, cruel, random)).append(random.nextInt(5) == 0 ? "\r\n" : "\n");
        }
        return log.substring(0, log.length() - random.nextInt(30));
    }

    private static String hurt(String cells, char separator, double time, boolean cruel, Random random) {
        switch (random.nextInt(60)) {
            case 0:
                return "# remark";
            case 1:
                return "";
            case 2:
                return cells + "\n" + cells;
            case 3:
                return (time - 0.07) + cells.substring(cells.indexOf(separator));
            case 4:
                return cells.substring(0, cells.lastIndexOf(separator) + 1);
            case 5:
                return cells.substring(0, cells.indexOf(separator) + 1) + separator + "d" + separator;
            case 6:
                return " " + cells.replace(String.valueOf(separator), separator + " ");
            default:
                break;
        }
        if (!cruel) {
            return cells;
        }
        int at = random.nextInt(cells.length());
        return switch (random.nextInt(500)) {
            case 0 -> cells.substring(0, at) + (char) random.nextInt(128) + cells.substring(at);
            case 1 -> cells.substring(0, at);
            case 2 -> "0" + separator + "0" + separator + separator;
            case 3 -> "1e12" + cells.substring(cells.indexOf(separator));
            default -> cells;
        };
    }
}
