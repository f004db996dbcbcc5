package linehold.rig.paper;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.LongSupplier;
import linehold.simulator.build.InputException;
import linehold.simulator.drive.LogDrive;
import linehold.simulator.drive.LogPicks;
import linehold.simulator.drive.LogPreview;
import linehold.simulator.output.WholeFile;

/**
 * The logs that people gave the page, and recordings that they took as drives: CSV files of one folder, each with its
 * mapping beside it as {@code prove} reads it. Each that can be read is a drive of the book.
 */
public final class OwnLogs {
    private static final String ENDING = ".csv";
    private static final int LONGEST_NAME = 60;
    /** A row of a recording as a log, at most, bytes. */
    private static final long BYTES_PER_TICK = 120;

    private final DriveBook book;
    private final Path folder;
    private final LogLimits limits;
    private final RecordingShelf shelf;
    private final LogUpload upload;
    /** By file name, why it is no drive; empty where it is one. */
    private final Map<String, String> logs = new TreeMap<>();
    /** Why the folder cannot be used; null where it can. A rig runs on without it. */
    private InputException trouble;

    /**
     * A log.
     *
     * @param mapped whether a mapping lies beside it
     * @param problem why it is no drive, in the words of the command; null where it is one
     */
    public record Log(String file, long bytes, boolean mapped, String problem) {}

    /** @param folder is made when the first log comes */
    public OwnLogs(DriveBook book, Path folder, RecordingShelf shelf) {
        this(book, folder, shelf, LogLimits.DEFAULT, () -> usableBytes(folder));
    }

    /** For tests. */
    public OwnLogs(DriveBook book, Path folder, RecordingShelf shelf, LogLimits limits, LongSupplier freeBytes) {
        this.book = book;
        this.folder = folder;
        this.limits = limits;
        this.shelf = shelf;
        upload = new LogUpload(folder, limits, freeBytes);
        if (Files.isDirectory(folder)) {
            list();
        }
    }

    private static long usableBytes(Path folder) {
        return folder.toFile().getUsableSpace();
    }

    private void list() {
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*" + ENDING)) {
            upload.deleteLeftOvers();
            for (Path file : files) {
                String name = file.getFileName().toString();
                if (Files.isRegularFile(file) && !name.startsWith(".")) {
                    open(name);
                }
            }
        } catch (IOException e) {
            trouble = new InputException(folder + ": cannot be listed, expected a folder of logs", e);
        }
    }

    public LogLimits limits() {
        return limits;
    }

    /** @throws InputException where the folder cannot be used */
    public synchronized List<Log> logs() {
        if (trouble != null) {
            throw trouble;
        }
        List<Log> all = new ArrayList<>();
        logs.forEach((file, problem) -> {
            Path log = folder.resolve(file);
            boolean mapped = Files.exists(LogPreview.mappingBeside(log));
            all.add(new Log(file, log.toFile().length(), mapped, problem.isEmpty() ? null : problem));
        });
        return all;
    }

    /**
     * Takes a log in.
     *
     * @param name as the person calls it
     * @param bytes how many are said to come; negative where nothing is said
     * @return its file name
     * @throws InputException where it is no log, its name is taken, or there is no room; nothing is left of it
     * @throws LogUpload.TooLargeException where it is too long
     */
    public String add(String name, long bytes, InputStream in) {
        String file = fileName(name);
        if (bytes > limits.mostBytes()) {
            throw new LogUpload.TooLargeException(file, limits);
        }
        makeReady(file, Math.max(0, bytes));
        upload.write(file, in);
        synchronized (this) {
            open(file);
            if (!logs.get(file).isEmpty()) {
                requireTable(file);
            }
        }
        return file;
    }

    private void makeReady(String file, long bytes) {
        WholeFile.makeFolder(folder);
        if (Files.exists(folder.resolve(file))) {
            throw LogUpload.taken(file);
        }
        upload.requireRoom(file, bytes);
    }

    /** What is no table can never be mapped: it does not stay. */
    private void requireTable(String file) {
        try {
            LogPreview.requireTable(folder.resolve(file));
        } catch (InputException e) {
            remove(file);
            throw e;
        }
    }

    private void open(String file) {
        try {
            book.put(file, LogDrive.of(folder.resolve(file), book.build()));
            logs.put(file, "");
        } catch (InputException e) {
            book.remove(file);
            logs.put(file, e.getMessage());
        }
    }

    /** Deletes a log with its mapping and ends its proof. */
    public synchronized void remove(String file) {
        Path log = known(file);
        book.remove(file);
        WholeFile.remove(log);
        WholeFile.remove(LogPreview.mappingBeside(log));
        logs.remove(file);
    }

    /** @param picks null for those that lie beside it, or the obvious ones */
    public LogPreview preview(String file, LogPicks picks) {
        Path log = known(file);
        return LogPreview.of(log, picks == null ? LogPreview.picksFor(log) : picks, book.build());
    }

    /** Keeps the picks beside the log and has it proved with them. */
    public synchronized void map(String file, LogPicks picks) {
        LogPreview.keep(known(file), picks);
        open(file);
    }

    /** Only a name that is in the list gets near the folder. */
    private synchronized Path known(String file) {
        if (!logs.containsKey(file)) {
            throw new InputException("log: found no log of this name, expected one of " + logs.keySet());
        }
        return folder.resolve(file);
    }

    public List<RecordingShelf.Line> recordings() {
        return shelf.lines();
    }

    /**
     * Takes a recording as a log, as far as it is written.
     *
     * @return its file name
     */
    public String take(long id) {
        RecordingShelf.Line line = shelf.lines().stream()
                .filter(one -> one.id() == id && one.problem() == null)
                .findFirst()
                .orElseThrow(() -> new InputException(
                        "recording: found none of number " + id + " that can be read, expected one of the list"));
        String file = "recording-" + id + ENDING;
        synchronized (shelf) {
            // One at a time: two would write the same file.
            makeReady(file, line.ticks() * BYTES_PER_TICK);
            try {
                shelf.writeDrive(id, folder.resolve(file));
            } catch (UncheckedIOException e) {
                throw new InputException(file + ": found no way to write it, expected room in " + folder, e);
            }
        }
        synchronized (this) {
            open(file);
        }
        return file;
    }

    /** Small letters, digits and hyphens of what a person calls it. */
    static String fileName(String name) {
        String last = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
        int dot = last.lastIndexOf('.');
        String plain = Normalizer.normalize(dot > 0 ? last.substring(0, dot) : last, Normalizer.Form.NFD)
                .toLowerCase(Locale.ROOT)
                .replaceAll("\\p{M}+", "")
                .replaceAll("[^a-z0-9]+", "-");
        String cut = plain.substring(0, Math.min(LONGEST_NAME, plain.length())).replaceAll("^-|-$", "");
        return (cut.isEmpty() ? "log" : cut) + ENDING;
    }
}
