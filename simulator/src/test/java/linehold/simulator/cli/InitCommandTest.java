package linehold.simulator.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.InputException;
import linehold.simulator.build.UnitSystem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class InitCommandTest {
    @TempDir
    private Path directory;

    private final StringWriter out = new StringWriter();

    /** Without the main class, so that exceptions come through. */
    private int run(String... arguments) {
        CommandLine command = new CommandLine(new InitCommand());
        command.setOut(new PrintWriter(out)).setErr(new PrintWriter(out));
        command.parseArgs(arguments);
        InitCommand init = command.getCommand();
        return init.call();
    }

    @Test
    void shouldWriteAFileThatLoadsAndNothingBesideIt() throws IOException {
        Path file = directory.resolve("mycar.yaml");

        assertThat(run(file.toString())).isZero();

        assertThat(BuildFile.load(file).name()).isEqualTo("mycar");
        assertThat(BuildFile.load(file).units()).isEqualTo(UnitSystem.METRIC);
        assertThat(out.toString()).contains("Wrote " + file);
        try (var files = Files.list(directory)) {
            assertThat(files).containsExactly(file);
        }
    }

    @Test
    void shouldRememberTheUnitsAskedFor() {
        Path file = directory.resolve("mycar.yml");

        assertThat(run("--units", "US", file.toString())).isZero();

        assertThat(BuildFile.load(file).units()).isEqualTo(UnitSystem.US);
        assertThat(BuildFile.load(file).name()).isEqualTo("mycar");
    }

    @Test
    void shouldLeaveAnExistingFileAlone() throws IOException {
        Path file = Files.writeString(directory.resolve("mycar.yaml"), "mine");

        assertThatThrownBy(() -> run(file.toString()))
                .isInstanceOf(InputException.class)
                .hasMessage(file + ": found an existing file, expected a name that is still free");
        assertThat(file).hasContent("mine");
    }

    @Test
    void shouldSayWhenTheDirectoryIsNotThere() {
        Path file = directory.resolve("nowhere").resolve("mycar.yaml");

        assertThatThrownBy(() -> run(file.toString()))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith(file + ": found no way to write there");
    }

    @Test
    void shouldRefuseUnknownUnits() {
        assertThatThrownBy(() -> run(
                        "--units", "imperial", directory.resolve("mycar.yaml").toString()))
                .isInstanceOf(CommandLine.ParameterException.class)
                .hasMessageContaining("found 'imperial', expected metric or us");
    }
}
