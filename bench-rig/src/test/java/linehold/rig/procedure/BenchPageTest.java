package linehold.rig.procedure;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** docs/bench.md tells of every procedure and every step, and has the cautions as they are shown. */
class BenchPageTest {
    private static String page() throws IOException {
        Path root = Path.of(System.getProperty("linehold.root", ".."));
        return Files.readString(root.resolve("docs/bench.md")).replaceAll("\\s+", " ");
    }

    @ParameterizedTest
    @EnumSource(Procedure.class)
    void shouldTellOfEveryProcedureAndStep(Procedure procedure) throws IOException {
        String heading = "### " + procedure.key() + ": " + procedure.title() + " ";
        assertThat(page()).contains(heading);
        String section =
                page().substring(page().indexOf(heading) + heading.length()).split("##")[0];
        for (Step step : procedure.steps(new Bench(VirtualBench.DEMONSTRATION, 1))) {
            boolean everywhere = step.title().equals("Prepare");
            boolean again = step.title().endsWith("again") || step.title().equals("Shaft stops");
            if (!everywhere && !again) {
                assertThat(section).contains(step.title());
            }
        }
    }

    @Test
    void shouldHaveTheCautionsFirst() throws IOException {
        String page = page();
        for (String caution : Cautions.ALL) {
            assertThat(page).contains(caution);
            assertThat(page.indexOf(caution)).isLessThan(page.indexOf("## The procedures"));
        }
    }
}
