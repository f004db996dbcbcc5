package linehold.simulator.build;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/**
 * docs/build-file.md and docs/build-file.schema.json follow from the table of keys. To rewrite them:
 *
 * <pre>mvn -q -pl simulator -am test -Dtest=GeneratedBuildPagesTest -Dlinehold.write=true
 * -Dsurefire.failIfNoSpecifiedTests=false</pre>
 */
class GeneratedBuildPagesTest {
    private static final String REWRITE =
            "stale; rewrite it with: mvn -q -pl simulator -am test -Dtest=GeneratedBuildPagesTest -Dlinehold.write=true"
                    + " -Dsurefire.failIfNoSpecifiedTests=false";

    @Test
    void shouldHaveThePageOfTheKeysUpToDate() throws IOException {
        check("docs/build-file.md", BuildPage.text());
    }

    @Test
    void shouldHaveTheSchemaUpToDate() throws IOException {
        check("docs/build-file.schema.json", BuildSchema.text());
    }

    private static void check(String name, String expected) throws IOException {
        Path file = Path.of(System.getProperty("linehold.root", "..")).resolve(name);
        if (Boolean.getBoolean("linehold.write")) {
            Files.createDirectories(file.getParent());
            Files.writeString(file, expected);
        }
        assertThat(file).as("%s is %s", name, REWRITE).exists();
        assertThat(new String(Files.readAllBytes(file), StandardCharsets.UTF_8))
                .as("%s is %s", name, REWRITE)
                .isEqualTo(expected);
    }
}
