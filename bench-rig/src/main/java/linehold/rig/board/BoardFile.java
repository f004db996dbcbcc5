package linehold.rig.board;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import linehold.simulator.build.InputException;

/** Loads a board file: docs/board-file.md has every key. */
public final class BoardFile {
    private static final String EXAMPLE = "/linehold/boards/example.yaml";

    private BoardFile() {}

    /**
     * Loads a file.
     *
     * @throws InputException with one sentence that names file, line, column, key, what was found and what was expected
     */
    public static Board load(Path path) {
        try {
            return BoardReader.read(path.toString(), Files.readAllBytes(path));
        } catch (NoSuchFileException e) {
            throw new InputException(path + ": found no such file, expected a board file", e);
        } catch (IOException e) {
            String what = Files.isDirectory(path) ? "a directory" : "a file that cannot be read";
            throw new InputException(path + ": found " + what + ", expected a board file", e);
        }
    }

    /** The text of a commented board file to start from. */
    public static String example() {
        try (InputStream in = BoardFile.class.getResourceAsStream(EXAMPLE)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
