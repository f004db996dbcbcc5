package linehold.rig.board;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/**
 * docs/board-file.md follows from the functions and keys. To rewrite it:
 *
 * <pre>mvn -q -pl bench-rig -am test -Dtest=BoardPageTest -Dlinehold.write=true -Dsurefire.failIfNoSpecifiedTests=false</pre>
 */
class BoardPageTest {
    private static final String REWRITE =
            "docs/board-file.md is stale; rewrite it with: mvn -q -pl bench-rig -am test -Dtest=BoardPageTest"
                    + " -Dlinehold.write=true -Dsurefire.failIfNoSpecifiedTests=false";

    @Test
    void shouldHaveThePageOfTheKeysUpToDate() throws IOException {
        Path file = Path.of(System.getProperty("linehold.root", "..")).resolve("docs/board-file.md");
        if (Boolean.getBoolean("linehold.write")) {
            Files.writeString(file, BoardPage.text());
        }
        assertThat(file).as(REWRITE).exists();
        assertThat(Files.readString(file)).as(REWRITE).isEqualTo(BoardPage.text());
    }
}
