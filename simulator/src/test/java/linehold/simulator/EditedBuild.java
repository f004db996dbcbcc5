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
        try (InputStream in = EditedBuild.class.getResourceAsStream("/linehold/builds/demonstration.yaml")) {
            String yaml = new String(in.readAllBytes(), StandardCharsets.UTF_8);
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
