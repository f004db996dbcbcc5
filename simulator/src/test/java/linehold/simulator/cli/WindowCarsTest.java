package linehold.simulator.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** {@code linehold window --cars}: what it refuses, before any work is done. */
class WindowCarsTest {
    @TempDir
    Path folder;

    private final StringWriter printed = new StringWriter();

    private int run(String... args) {
        CommandLine line = new CommandLine(new WindowCommand()).setOut(new PrintWriter(printed));
        line.setExecutionExceptionHandler((exception, command, result) -> {
            printed.append(exception.getMessage());
            return 2;
        });
        return line.execute(args);
    }

    @Test
    void shouldRefuseANumberOfCarsThatIsNone() {
        assertThat(run("--cars", "0", "--out", folder.toString())).isEqualTo(2);
        assertThat(printed.toString()).isEqualTo("--cars: found '0', expected a whole number from 1 to 100000");
    }

    @Test
    void shouldRefuseABuildWithoutSpreads() {
        assertThat(run("--cars", "10", "--build", "weak", "--out", folder.toString()))
                .isEqualTo(2);
        assertThat(printed.toString())
                .isEqualTo("--cars: found no spread in the build weak, expected some, such as '24 cm3/rev ± 5 %'");
    }
}
