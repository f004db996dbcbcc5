package linehold.rig.paper;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;

/** A long log in our own format: 100 rows a second of driving between stops, invented, the same for the same seed. */
final class DayLog {
    private static final int ROWS_PER_S = 100;
    private static final double TOP_RPM = 4500;

    private final Random random;
    private double rpm;
    private double wantedRpm;
    private double stepRpm;
    private int rowsLeft = 10 * ROWS_PER_S;

    private DayLog(long seed) {
        random = new Random(seed);
    }

    static void write(Path file, int hours, long seed) throws IOException {
        DayLog car = new DayLog(seed);
        StringBuilder line = new StringBuilder();
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file), 1 << 16)) {
            out.write("time_s,motor_speed_rpm\n".getBytes(StandardCharsets.US_ASCII));
            for (int row = 0; row < hours * 3600 * ROWS_PER_S; row++) {
                line.setLength(0);
                hundredths(line, row);
                line.append(',');
                hundredths(line, Math.round(car.nextRpm() * 100));
                out.write(line.append('\n').toString().getBytes(StandardCharsets.US_ASCII));
            }
        }
    }

    private static void hundredths(StringBuilder line, long value) {
        long rest = value % 100;
        line.append(value / 100).append(rest < 10 ? ".0" : ".").append(rest);
    }

    /** Up or down to another speed, then a while there; every third time to a stop. */
    private double nextRpm() {
        if (rowsLeft-- == 0) {
            wantedRpm = random.nextInt(3) == 0 ? 0 : random.nextDouble() * TOP_RPM;
            stepRpm = (200 + 800 * random.nextDouble()) / ROWS_PER_S;
            rowsLeft = (int) (Math.abs(wantedRpm - rpm) / stepRpm) + ROWS_PER_S * (3 + random.nextInt(40));
        }
        rpm += Math.max(-stepRpm, Math.min(stepRpm, wantedRpm - rpm));
        return rpm;
    }
}
