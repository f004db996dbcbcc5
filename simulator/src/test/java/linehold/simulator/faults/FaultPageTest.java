package linehold.simulator.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import linehold.simulator.fault.FaultKind;
import org.junit.jupiter.api.Test;

/** The tables of docs/faults.md follow from the code; rewrite them with -Dlinehold.write=true. */
class FaultPageTest {
    private static final Path PAGE =
            Path.of(System.getProperty("linehold.root", "..")).resolve("docs/faults.md");

    @Test
    void shouldListEveryFault() throws IOException {
        StringBuilder table =
                new StringBuilder("| fault | part | what breaks | usual size | lasts |\n|---|---|---|---|---|\n");
        for (FaultKind kind : FaultKind.values()) {
            String lasts = Double.isInfinite(kind.usualDurationS()) ? "stays" : kind.usualDurationS() + " s";
            table.append("| `%s` | %s | %s | %s | %s |\n"
                    .formatted(kind.key(), kind.part().title(), kind.title(), kind.usualSizeText(), lasts));
        }
        check("faults", table.toString());
    }

    @Test
    void shouldListEveryPhase() throws IOException {
        StringBuilder table = new StringBuilder("| phase | what the car does |\n|---|---|\n");
        for (Phase phase : Phase.values()) {
            table.append("| `%s` | %s |\n".formatted(phase.key(), phase.title()));
        }
        check("phases", table.toString());
    }

    private static void check(String name, String table) throws IOException {
        String begin = "<!-- " + name + ": generated -->\n";
        String end = "<!-- end of " + name + " -->";
        String page = Files.readString(PAGE, StandardCharsets.UTF_8).replace("\r\n", "\n");
        int from = page.indexOf(begin) + begin.length();
        int to = page.indexOf(end);
        if (Boolean.getBoolean("linehold.write")) {
            page = page.substring(0, from) + table + page.substring(to);
            Files.writeString(PAGE, page, StandardCharsets.UTF_8);
        }
        assertThat(page)
                .as("docs/faults.md is stale; rewrite it with: mvn -q -pl simulator -am test -Dtest=FaultPageTest"
                        + " -Dlinehold.write=true -Dsurefire.failIfNoSpecifiedTests=false")
                .contains(begin + table + end);
    }
}
