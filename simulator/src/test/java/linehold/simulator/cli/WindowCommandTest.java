package linehold.simulator.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** What {@code linehold window} leaves behind, and that the commands it prints do what it says. */
class WindowCommandTest {
    private static final Pattern ARGUMENT = Pattern.compile("'([^']*)'|(\\S+)");

    @TempDir
    Path folder;

    private final StringWriter printed = new StringWriter();

    private int run(Object command, String... args) {
        CommandLine line = new CommandLine(command).setOut(new PrintWriter(printed));
        line.setExecutionExceptionHandler((exception, failed, result) -> {
            printed.append(exception.getMessage());
            return 2;
        });
        return line.execute(args);
    }

    /** As a shell would take the printed line apart. */
    private int runPrinted(String label) {
        String line = printed.toString()
                .lines()
                .filter(one -> one.startsWith(label))
                .findFirst()
                .orElseThrow();
        Matcher words = ARGUMENT.matcher(line.substring(line.indexOf("linehold prove") + "linehold prove".length()));
        List<String> args = words.results()
                .map(word -> word.group(1) != null ? word.group(1) : word.group(2))
                .toList();
        String[] all = Arrays.copyOf(args.toArray(new String[0]), args.size() + 2);
        all[args.size()] = "--out";
        all[args.size() + 1] = folder.toString();
        return run(new ProveCommand(), all);
    }

    @Test
    void shouldPrintTheCommandsThatHoldThePairAndLoseTheLoweredOne() {
        assertThat(run(new WindowCommand(), "--oil", "60 °C,120 °C", "--out", folder.toString(), "ece-r83"))
                .isZero();
        assertThat(printed.toString()).contains("On the drives given (speed alone) all 2 runs held.");
        assertThat(runPrinted("to prove it:")).isZero();
        assertThat(runPrinted("to see it lost:")).isEqualTo(1);
    }

    @Test
    void shouldRemoveAHardestStopOfAnEarlierRun() throws IOException {
        Path stale = Files.writeString(folder.resolve("hardest-stop.csv"), "of another build");
        assertThat(run(new WindowCommand(), "--build", "weak", "--oil", "120 °C", "--out", folder.toString()))
                .isEqualTo(1);
        assertThat(stale).doesNotExist();
        assertThat(printed.toString()).doesNotContain("to prove it:");
    }

    @Test
    void shouldRefuseADriveThatIsNoneBeforeAnyWork() {
        assertThat(run(new WindowCommand(), "--out", folder.toString(), "nowhere"))
                .isEqualTo(2);
        assertThat(printed.toString()).startsWith("\"nowhere\": no such drive");
    }

    @Test
    void shouldRefuseAWindowThatTheControllerWouldNotTake() {
        assertThat(run(new ProveCommand(), "--switch-on", "875 rpm", "--switch-off", "880 rpm"))
                .isEqualTo(2);
        assertThat(printed.toString()).contains("switch-off-speed (880 rpm) must exceed by at least 50 rpm");
        assertThat(run(new ProveCommand(), "--switch-on", "875")).isEqualTo(2);
        assertThat(printed.toString()).endsWith("--switch-on: found '875', expected a speed such as '770 rpm'");
    }
}
