package linehold.simulator;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;

/** The shipped demonstration build with some lines changed, read as a person's file would be. */
public final class EditedBuild {
    private EditedBuild() {}

    /** @param changes old text, new text, old text, new text …; every old text must be there once or more */
    public static Build of(String... changes) {
        return of(demonstration(), changes);
    }

    /** The same without the spreads that the build ships with. */
    public static Build withoutSpreads(String... changes) {
        return of(demonstration().replaceAll(" ± [0-9.]+ [^ \n]+", ""), changes);
    }

    private static String demonstration() {
        try (InputStream in = EditedBuild.class.getResourceAsStream("/linehold/builds/demonstration.yaml")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Build of(String original, String... changes) {
        try {
            String yaml = original;
            for (int i = 0; i < changes.length; i += 2) {
                if (!yaml.contains(changes[i])) {
                    throw new IllegalArgumentException("the demonstration build has no '" + changes[i] + "'");
                }
                yaml = yaml.replace(changes[i], changes[i + 1]);
            }
            Path file = Files.createTempFile("build", ".yaml");
            try {
                Files.writeString(file, yaml);
                return BuildFile.load(file);
            } finally {
                Files.delete(file);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
