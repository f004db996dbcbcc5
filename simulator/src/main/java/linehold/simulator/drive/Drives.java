package linehold.simulator.drive;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import linehold.simulator.build.Build;
import linehold.simulator.build.CarSpec;
import linehold.simulator.build.GearsSpec;
import linehold.simulator.build.InputException;

/** Finds a drive by what a person calls it. */
public final class Drives {
    private Drives() {}

    /**
     * A built-in drive by its name, else a log by its path.
     *
     * @throws InputException where it is neither, or the log cannot be used
     */
    public static Drive resolve(String nameOrPath, Build build) {
        return resolve(nameOrPath, build.car(), build.gears());
    }

    static Drive resolve(String nameOrPath, CarSpec car, GearsSpec gears) {
        List<RowDrive> builtIn = BuiltInDrives.all(car, gears);
        for (RowDrive drive : builtIn) {
            if (drive.name().equals(nameOrPath)) {
                return drive;
            }
        }
        Path file = path(nameOrPath);
        if (file != null && Files.exists(file)) {
            return LogDrive.of(file, car, gears);
        }
        throw new InputException("\"" + nameOrPath + "\": no such drive, expected the path of a CSV log or one of "
                + builtIn.stream().map(RowDrive::name).collect(Collectors.joining(", ")));
    }

    private static Path path(String text) {
        try {
            return Path.of(text);
        } catch (InvalidPathException e) {
            return null;
        }
    }
}
