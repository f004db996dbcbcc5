package linehold.simulator.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** {@code linehold certify}: its files, its exit status, and what {@code --check} says of a file tampered with. */
class CertifyCommandTest {
    @TempDir
    Path folder;

    private StringWriter printed = new StringWriter();

    private int run(String... args) {
        printed = new StringWriter();
        CommandLine line = new CommandLine(new CertifyCommand()).setOut(new PrintWriter(printed));
        line.setExecutionExceptionHandler((exception, command, result) -> {
            printed.append(exception.getMessage());
            return 2;
        });
        return line.execute(args);
    }

    @Test
    void shouldCertifyTheRuleOfThumbForOrdinaryBrakingAndCheckTheFile() throws IOException {
        String out = folder.toString();
        assertThat(run("--build", "rule-of-thumb", "--fall", "1500 rpm/s", "--runs", "16", "--out", out))
                .isZero();
        assertThat(printed.toString()).contains("below 4.18 bar");
        assertThat(folder.resolve("certify.html")).exists();
        assertThat(folder.resolve("worst-drive.csv")).exists();

        Path file = folder.resolve("certificate.json");
        assertThat(run("--build", "rule-of-thumb", "--check", file.toString())).isZero();
        assertThat(printed.toString())
                .startsWith("Accepted: build rule-of-thumb")
                .contains("28 slices");
        assertThat(run("--check", file.toString())).isEqualTo(1);
        assertThat(printed.toString()).contains("another build file");

        Files.writeString(file, Files.readString(file).replaceFirst("\"late_tick_s\":5.0E-4", "\"late_tick_s\":0.001"));
        assertThat(run("--build", "rule-of-thumb", "--check", file.toString())).isEqualTo(1);
        assertThat(printed.toString()).contains("pickup, tick and relay may take");
    }

    @Test
    void shouldRefuseTheRuleOfThumbForTheWheelLockedOnIce() {
        assertThat(run("--build", "rule-of-thumb", "--runs", "0", "--out", folder.toString()))
                .isEqualTo(1);
        assertThat(printed.toString())
                .contains("Refused: ")
                .contains("certain up to a fall of 1560 rpm/s")
                .contains("is 1430 rpm");
        assertThat(folder.resolve("certificate.json")).doesNotExist();
    }

    @Test
    void shouldSayWhatIsWrongWithBadInput() throws IOException {
        Path none = Files.writeString(folder.resolve("none.json"), "{}");
        assertThat(run("--check", none.toString())).isEqualTo(2);
        assertThat(printed.toString()).endsWith("none.json: schema: found nothing, expected 1");
        assertThat(run("--fall", "4500", "--out", folder.toString())).isEqualTo(2);
        assertThat(printed.toString())
                .isEqualTo("--fall: found '4500', expected a value above zero such as '4500 rpm/s'");
        assertThat(run("--build", "weak", "--spreads", "--out", folder.toString()))
                .isEqualTo(2);
        assertThat(printed.toString()).startsWith("--spreads: found no spread in the build weak");
    }
}
