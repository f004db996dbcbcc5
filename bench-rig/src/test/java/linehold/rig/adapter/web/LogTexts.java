package linehold.rig.adapter.web;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.function.IntToDoubleFunction;
import linehold.rig.paper.RecordingShelf;

/** Invented logs: a car that pulls away, drives and stops again. */
final class LogTexts {
    private LogTexts() {}

    /** Recordings that are all {@link #own} once they are taken. */
    static RecordingShelf shelf(RecordingShelf.Line... lines) {
        return new RecordingShelf() {
            @Override
            public List<Line> lines() {
                return List.of(lines);
            }

            @Override
            public void writeDrive(long id, Path file) {
                try {
                    Files.writeString(file, own());
                } catch (IOException e) {
                    throw new IllegalStateException(e);
                }
            }
        };
    }

    private static double rpm(int tenths) {
        double s = tenths / 10.0;
        return Math.max(0, Math.min(1, Math.min((s - 4) / 5, (26 - s) / 3))) * 2400;
    }

    /** 30 s in our own format. */
    static String own() {
        StringBuilder log = new StringBuilder("time_s,motor_speed_rpm,range,brake\n");
        for (int i = 0; i <= 300; i++) {
            log.append(String.format(Locale.ROOT, "%.1f,%.1f,D,%d%n", i / 10.0, rpm(i), rpm(i) == 0 ? 1 : 0));
        }
        return log.toString().replace("\r", "");
    }

    /** The same with a word where a speed should be. */
    static String bad() {
        return own().replace("20.0,2400.0,", "20.0,fast,");
    }

    /** The same as another logger would write it: semicolons, decimal commas, milliseconds, km/h, its own words. */
    static String foreign() {
        return foreign(i -> rpm(i) / 60);
    }

    private static String foreign(IntToDoubleFunction kmPerH) {
        StringBuilder log = new StringBuilder("Data logger;unit 7\nUhr [ms];v Rad [km/h];Pedal;T1 [°F]\n");
        for (int i = 0; i <= 300; i++) {
            log.append(String.format(
                            Locale.ROOT,
                            "%d;%.2f;%s;%.1f%n",
                            i * 100,
                            kmPerH.applyAsDouble(i),
                            rpm(i) == 0 ? "on" : "off",
                            140 + i / 100.0)
                    .replace('.', ','));
        }
        return log.toString().replace("\r", "");
    }

    /** Hours of the car of {@link #own}, a row each half second. */
    static String hours(int hours) {
        StringBuilder log = new StringBuilder("time_s,motor_speed_rpm\n");
        for (int i = 0; i <= hours * 7200; i++) {
            log.append(i / 2.0).append(',').append(Math.round(rpm(i % 60 * 5))).append('\n');
        }
        return log.toString();
    }
}
