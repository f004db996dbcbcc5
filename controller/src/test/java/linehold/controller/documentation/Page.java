package linehold.controller.documentation;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;

/** A page under docs/ that is written from the code: compared, or rewritten where that is asked for. */
final class Page {
    private static final String COMMAND =
            "mvn -q -pl controller test -Dtest='GeneratedPagesTest,RequirementTableTest' -Dlinehold.write=true";

    private Page() {}

    static Path root() {
        return Path.of(Objects.requireNonNull(System.getProperty("linehold.root"), "linehold.root"));
    }

    static void check(String name, String text) throws IOException {
        Path file = root().resolve("docs").resolve(name);
        if (Boolean.getBoolean("linehold.write")) {
            Files.writeString(file, text);
        }
        String found = Files.exists(file) ? Files.readString(file).replace("\r\n", "\n") : "";
        assertThat(found)
                .as("docs/%s is stale; rewrite it by: %s", name, COMMAND)
                .isEqualTo(text);
    }
}
