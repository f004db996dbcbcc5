package linehold.simulator.output;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import linehold.simulator.build.InputException;

/** Writes a file whole or not at all: nobody sees half of it, and work that fails leaves an older one alone. */
public final class WholeFile {
    private WholeFile() {}

    /** Writes the text of a file, UTF-8. */
    @FunctionalInterface
    public interface Content {
        void writeTo(Writer out) throws IOException;
    }

    /**
     * Writes a file, replacing one that is there.
     *
     * @throws InputException where it cannot be opened or put in its place
     * @throws IOException what the content threw
     */
    public static void write(Path file, Content content) throws IOException {
        Path part = file.resolveSibling("." + file.getFileName() + ".part");
        try {
            try (Writer out = open(file, part)) {
                content.writeTo(out);
            }
            move(part, file);
        } finally {
            Files.deleteIfExists(part);
        }
    }

    /**
     * Writes a file that is ready as text, replacing one that is there.
     *
     * @throws InputException where it cannot be written
     */
    public static void writeText(Path file, String text) {
        try {
            write(file, out -> out.write(text));
        } catch (IOException e) {
            throw cannotWrite(file, e);
        }
    }

    /** Removes a file that an earlier run may have left. */
    public static void remove(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            throw cannotWrite(file, e);
        }
    }

    /** Makes a folder with its parents. */
    public static void makeFolder(Path folder) {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw new InputException(folder + ": found no way to make it, expected a folder that can be written", e);
        }
    }

    private static Writer open(Path file, Path part) {
        try {
            return Files.newBufferedWriter(part, StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw cannotWrite(file, e);
        }
    }

    private static void move(Path part, Path file) {
        try {
            Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            throw cannotWrite(file, e);
        }
    }

    private static InputException cannotWrite(Path file, IOException e) {
        return new InputException(
                file + ": found no way to write it (" + e.getClass().getSimpleName()
                        + "), expected a file in a folder with room that may be written",
                e);
    }
}
