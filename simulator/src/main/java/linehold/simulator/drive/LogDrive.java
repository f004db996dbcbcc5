package linehold.simulator.drive;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import linehold.simulator.build.Build;
import linehold.simulator.build.CarSpec;
import linehold.simulator.build.GearsSpec;
import linehold.simulator.build.InputException;

/**
 * A drive recorded in a real car: a CSV file, with a small YAML file beside it that says what its columns hold (or in our
 * own format, which needs none). Read again from the file, row by row, each time it is opened.
 */
public final class LogDrive implements Drive {
    private final String name;
    private final Path file;
    private final LogMapping mapping;
    private final LogHeader header;
    private final long firstLine;
    private final CarSpec car;
    private final GearsSpec gears;

    private LogDrive(Path file, LogMapping mapping, boolean allColumns, CarSpec car, GearsSpec gears) {
        this(file, mapping, LogHeader.find(file, mapping, allColumns), car, gears);
    }

    private LogDrive(Path file, LogMapping mapping, LogHeader header, CarSpec car, GearsSpec gears) {
        this(driveName(file), file, mapping, header, LogStart.firstLine(file, mapping, header), car, gears);
    }

    private LogDrive(
            String name,
            Path file,
            LogMapping mapping,
            LogHeader header,
            long firstLine,
            CarSpec car,
            GearsSpec gears) {
        this.name = name;
        this.file = file;
        this.mapping = mapping;
        this.header = header;
        this.firstLine = firstLine;
        this.car = car;
        this.gears = gears;
    }

    /**
     * A log with the mapping that lies beside it ({@code mylog.map.yaml} beside {@code mylog.csv}), or in our own format
     * where none does.
     *
     * @throws InputException where the file, its mapping or its header cannot be used
     */
    public static LogDrive of(Path file, Build build) {
        return of(file, build.car(), build.gears());
    }

    /** A log with a mapping that lies elsewhere. */
    public static LogDrive of(Path file, Path mappingFile, Build build) {
        requireFile(file);
        requireFile(mappingFile);
        return new LogDrive(file, LogMappingReader.read(mappingFile), true, build.car(), build.gears());
    }

    /** A log with a mapping that is not in a file yet. */
    static LogDrive of(Path file, LogMapping mapping, Build build) {
        requireFile(file);
        return new LogDrive(file, mapping, true, build.car(), build.gears());
    }

    @Override
    public LogDrive inCarOf(Build build) {
        return new LogDrive(name, file, mapping, header, firstLine, build.car(), build.gears());
    }

    static LogDrive of(Path file, CarSpec car, GearsSpec gears) {
        requireFile(file);
        Path beside = LogMappingReader.besideLog(file);
        return Files.exists(beside)
                ? new LogDrive(file, LogMappingReader.read(beside), true, car, gears)
                : new LogDrive(file, LogMapping.ownFormat(), false, car, gears);
    }

    private static void requireFile(Path file) {
        if (!Files.isRegularFile(file) || !Files.isReadable(file)) {
            throw new InputException(file + ": no such file that can be read");
        }
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public String source() {
        return file.getFileName().toString();
    }

    @Override
    public DriveReader open() {
        return new LogReader(source(), new LogRows(file, mapping, header, firstLine), header, car, gears);
    }

    /** The file name without its ending. */
    static String baseName(Path file) {
        String fileName = file.getFileName().toString();
        int dot = fileName.lastIndexOf('.');
        return dot > 0 ? fileName.substring(0, dot) : fileName;
    }

    private static String driveName(Path file) {
        String plain = baseName(file)
                .toLowerCase(Locale.ROOT)
                .replaceAll("[^\\p{L}\\p{N}]+", "-")
                .replaceAll("^-|-$", "");
        return plain.isEmpty() ? "log" : plain;
    }
}
