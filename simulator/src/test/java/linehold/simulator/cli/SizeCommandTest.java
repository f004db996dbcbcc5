package linehold.simulator.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import linehold.simulator.build.StartingFile;
import linehold.simulator.build.UnitSystem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class SizeCommandTest {
    @TempDir
    Path folder;

    private final StringWriter printed = new StringWriter();

    private int run(String... args) {
        CommandLine line = new CommandLine(new SizeCommand()).setOut(new PrintWriter(printed));
        line.setExecutionExceptionHandler((exception, command, result) -> {
            printed.append(exception.getMessage());
            return 2;
        });
        return line.execute(args);
    }

    private String path(String name) {
        return folder.resolve(name).toString();
    }

    @Test
    void shouldSizeTheDemonstrationBuildAndWriteBothFiles() {
        assertThat(run("--out", path("out"))).isZero();
        assertThat(printed.toString()).contains("Cable, fuse and relay").contains("written: " + path("out"));
        assertThat(folder.resolve("out/size.json")).isNotEmptyFile();
        assertThat(folder.resolve("out/size.html")).isNotEmptyFile();
    }

    @Test
    void shouldEndWithOneWhereAPartIsNotEnough() throws Exception {
        String weak = StartingFile.text("weak", UnitSystem.METRIC).replace("  awg: 10", "  awg: 20");
        Files.writeString(folder.resolve("weak.yaml"), weak);
        assertThat(run("--build", path("weak.yaml"), "--out", path("out"))).isEqualTo(1);
        assertThat(printed.toString()).contains("not enough").contains("NOT ENOUGH: ");
    }

    @Test
    void shouldCompareWithAnEarlierRunEvenOnTheFileItReplaces() {
        run("--out", path("out"));
        assertThat(run("--out", path("out"), "--against", path("out/size.json")))
                .isZero();
        assertThat(printed.toString()).contains("Nothing changed against the earlier sheet");
    }

    @Test
    void shouldEndWithTwoOnBadInputAndWriteNothing() {
        assertThat(run("--against", path("none.json"), "--out", path("out"))).isEqualTo(2);
        assertThat(run("--build", path("none.yaml"), "--out", path("out"))).isEqualTo(2);
        assertThat(run("--units", "imperial", "--out", path("out"))).isEqualTo(2);
        assertThat(folder.resolve("out")).doesNotExist();
    }

    @Test
    void shouldSpeakUsUnits() {
        run("--out", path("out"), "--units", "us");
        assertThat(printed.toString()).contains(" psi").contains(" ft/s").doesNotContain(" bar ");
    }
}
