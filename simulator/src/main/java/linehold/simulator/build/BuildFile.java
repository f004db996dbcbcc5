package linehold.simulator.build;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;

/** Loads a build file: docs/build-file.md has every key. */
public final class BuildFile {
    /** The builds that come with the program. */
    public static final List<String> SHIPPED = List.of("demonstration", "rule-of-thumb", "weak");

    private static final String RESOURCES = "/linehold/builds/";

    private BuildFile() {}

    /**
     * Loads a file.
     *
     * @throws InputException with one sentence that names file, line, column, key, what was found and what was expected
     */
    public static Build load(Path path) {
        try {
            return parse(path.toString(), Files.readAllBytes(path));
        } catch (NoSuchFileException e) {
            throw new InputException(
                    path + ": found no such file, expected a build file or one of " + String.join(", ", SHIPPED), e);
        } catch (IOException e) {
            String what = Files.isDirectory(path) ? "a directory" : "a file that cannot be read";
            throw new InputException(path + ": found " + what + ", expected a build file", e);
        }
    }

    /**
     * Loads a shipped build by its name, else a file.
     *
     * @throws InputException as {@link #load} does
     */
    public static Build loadNamed(String nameOrPath) {
        if (SHIPPED.contains(nameOrPath)) {
            return parse(nameOrPath + ".yaml", shipped(nameOrPath));
        }
        try {
            return load(Path.of(nameOrPath));
        } catch (java.nio.file.InvalidPathException e) {
            throw new InputException("'" + nameOrPath + "' is not a file name", e);
        }
    }

    /**
     * The bytes of what {@link #loadNamed} reads.
     *
     * @throws InputException where the file cannot be read
     */
    public static byte[] bytesNamed(String nameOrPath) {
        if (SHIPPED.contains(nameOrPath)) {
            return shipped(nameOrPath);
        }
        try {
            return Files.readAllBytes(Path.of(nameOrPath));
        } catch (IOException e) {
            throw new InputException(nameOrPath + ": found a file that cannot be read, expected a build file", e);
        }
    }

    /** The bytes of a shipped build, to show or copy. */
    static byte[] shipped(String name) {
        try (InputStream in = BuildFile.class.getResourceAsStream(RESOURCES + name + ".yaml")) {
            if (in == null) {
                throw new IllegalStateException("the program lacks its build " + name);
            }
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * Reads a file's bytes.
     *
     * @param file how messages call it
     * @throws InputException as {@link #load} does
     */
    public static Build parse(String file, byte[] bytes) {
        BuildValues values = BuildReader.read(file, bytes);
        BuildChecks.check(values);
        return new BuildAssembly(values).build(sha256(bytes));
    }

    private static String sha256(byte[] bytes) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    static UnitSystem units(String word) {
        return UnitSystem.valueOf(word.toUpperCase(Locale.ROOT));
    }
}
