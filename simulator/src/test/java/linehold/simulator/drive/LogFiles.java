package linehold.simulator.drive;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Writes logs and mappings for tests and reads the drives they make. */
final class LogFiles {
    private final Path folder;

    LogFiles(Path folder) {
        this.folder = folder;
    }

    LogFiles write(String name, String text) {
        return write(name, text.getBytes(StandardCharsets.UTF_8));
    }

    LogFiles write(String name, byte[] bytes) {
        try {
            Files.write(folder.resolve(name), bytes);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return this;
    }

    LogDrive drive(String name) {
        return LogDrive.of(folder.resolve(name), DemonstrationCar.CAR, DemonstrationCar.GEARS);
    }

    /** What became of a log. */
    record Outcome(List<DriveSample> rows, RepairCounts repairs) {
        DriveSample at(double timeS) {
            return rows.stream()
                    .filter(r -> Math.abs(r.timeS - timeS) < 1e-9)
                    .findFirst()
                    .orElseThrow(() -> new AssertionError("no row at " + timeS + " in "
                            + rows.stream().map(r -> r.timeS).toList()));
        }
    }

    Outcome outcome(String name) {
        try (DriveReader reader = drive(name).open()) {
            List<DriveSample> rows = DriveRows.of(reader);
            return new Outcome(rows, reader.repairs());
        }
    }

    /** The outcome of a log of the given text in our own format. */
    Outcome ownFormat(String text) {
        return write("log.csv", text).outcome("log.csv");
    }
}
