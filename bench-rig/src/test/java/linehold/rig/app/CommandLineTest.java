package linehold.rig.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The program as a person starts it: its own process, its exit status, what it prints and writes. */
class CommandLineTest {
    @TempDir
    private Path folder;

    private record Outcome(int status, String out, String err) {}

    private Outcome run(List<String> javaOptions, String... args) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(javaOptions);
        command.addAll(List.of("-cp", System.getProperty("java.class.path"), "linehold.rig.app.Main"));
        command.addAll(List.of(args));
        Path out = folder.resolve("stdout.txt");
        Path err = folder.resolve("stderr.txt");
        Process process = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectOutput(out.toFile())
                .redirectError(err.toFile())
                .start();
        assertThat(process.waitFor(120, TimeUnit.SECONDS)).as("ends in time").isTrue();
        return new Outcome(
                process.exitValue(),
                Files.readString(out, StandardCharsets.UTF_8),
                Files.readString(err, StandardCharsets.UTF_8));
    }

    private Outcome run(String... args) throws IOException, InterruptedException {
        return run(List.of("-Xmx400m"), args);
    }

    @Test
    void shouldHoldTheDemonstrationBuildWithoutAnyArgument() throws Exception {
        Outcome outcome = run("prove");
        assertThat(outcome.err).isEmpty();
        assertThat(outcome.status).isZero();
        assertThat(outcome.out).contains("HELD", "Weakest moment").doesNotContain("\u001b");
        assertThat(folder.resolve("out/verdict.json")).isNotEmptyFile();
        assertThat(folder.resolve("out/report.html")).isNotEmptyFile();
    }

    @Test
    void shouldEndWithStatusOneWhereALineIsLost() throws Exception {
        Outcome outcome = run("prove", "--build", "rule-of-thumb", "panic-stop-ice-slow", "--oil", "120degC");
        assertThat(outcome.status).isEqualTo(1);
        assertThat(outcome.out).contains("LOST", "spinning up");
    }

    @Test
    void shouldEndWithStatusTwoAndOneSentenceForBadInput() throws Exception {
        Path build = folder.resolve("bad.yaml");
        Files.writeString(build, "name: bad\noil:\n  viscosity-40: 34 bar\n");
        for (String[] args : new String[][] {
            {"prove", "--build", build.toString()},
            {"prove", "nosuch.csv"},
            {"prove", "--units", "imperial"},
            {"prove", "--oil", "warm"},
            {"prove", "--no-such-option"},
            {"faults", "--only", "hose-leek"},
            {"faults", "--phase", "flying"},
            {"faults", "--run", "hose-leak@creeping"},
            {"faults", "--run", "hose-leak@creeping@warm"},
            {"faults", "--csv", "run.csv"},
            {"window", "--build", "nosuch.yaml"},
            {"window", "--oil", "warm"},
            {"window", "--oil", "400 °C"},
            {"window", "--against", "nosuch.json"},
            {"nosuch"},
            {}
        }) {
            Outcome outcome = run(args);
            assertThat(outcome.status).as(String.join(" ", args)).isEqualTo(2);
            assertThat(outcome.out).isEmpty();
            assertThat(outcome.err.strip().lines()).as(outcome.err).hasSize(1);
            assertThat(outcome.err).startsWith("linehold: ");
        }
        assertThat(folder.resolve("out")).doesNotExist();
    }

    @Test
    void shouldFindTheSameWindowOnOneCoreAndFourAndProveItsHardestStop() throws Exception {
        String[] window = {"window", "--oil", "120degC", "--out"};
        Outcome first = run(List.of("-XX:ActiveProcessorCount=1", "-Duser.language=en"), with(window, "one"));
        Outcome second = run(List.of("-XX:ActiveProcessorCount=4", "-Duser.language=tr"), with(window, "two"));
        assertThat(first.status).as(first.err).isZero();
        assertThat(second.status).isZero();
        for (String file : List.of("window.json", "window.html", "hardest-stop.csv")) {
            assertThat(Files.mismatch(
                            folder.resolve("one").resolve(file),
                            folder.resolve("two").resolve(file)))
                    .as(file)
                    .isEqualTo(-1);
        }
        assertThat(run("prove", "one/hardest-stop.csv", "--oil", "120degC").status)
                .isZero();

        Outcome none = run("window", "--build", "weak", "--oil", "120degC", "--against", "one/window.json");
        assertThat(none.status).isEqualTo(1);
        assertThat(none.out).contains("window: exists → none", "NO WINDOW.");
    }

    @Test
    void shouldNotDependOnCoresLocaleOrTimeZone() throws Exception {
        String[] prove = {"prove", "--build", "rule-of-thumb", "hill-hold", "panic-stop-dry-slow", "--csv", "--out"};
        Outcome first = run(
                List.of("-XX:ActiveProcessorCount=1", "-Duser.language=en", "-Duser.timezone=UTC"), with(prove, "one"));
        Outcome second = run(
                List.of("-XX:ActiveProcessorCount=4", "-Duser.language=tr", "-Duser.timezone=Asia/Tokyo"),
                with(prove, "two"));
        assertThat(first.status).isEqualTo(1);
        assertThat(second.status).isEqualTo(1);
        for (String file : List.of("verdict.json", "report.html", "runs/panic-stop-dry-slow_120C.csv")) {
            assertThat(Files.mismatch(
                            folder.resolve("one").resolve(file),
                            folder.resolve("two").resolve(file)))
                    .as(file)
                    .isEqualTo(-1);
        }
    }

    private static String[] with(String[] args, String last) {
        String[] all = java.util.Arrays.copyOf(args, args.length + 1);
        all[args.length] = last;
        return all;
    }

    @Test
    void shouldTryFaultsTheSameWayOnAnyNumberOfCores() throws Exception {
        String[] faults = {"faults", "--only", "pump-stalled,sender-open", "--phase", "pulling-away,creeping", "--out"};
        Outcome first = run(List.of("-XX:ActiveProcessorCount=1", "-Duser.language=en"), with(faults, "one"));
        Outcome second = run(List.of("-XX:ActiveProcessorCount=4", "-Duser.language=tr"), with(faults, "two"));
        // A pump that seizes while pulling away is beyond this build, and it says so.
        assertThat(first.status).as(first.err).isZero();
        assertThat(second.status).isZero();
        assertThat(Files.mismatch(folder.resolve("one/faults.json"), folder.resolve("two/faults.json")))
                .isEqualTo(-1);
    }

    @Test
    void shouldEndWithStatusOneWhereAClaimedFaultSlips() throws Exception {
        assertThat(run("init", "mycar.yaml").status).isZero();
        String[] faults = {"faults", "--build", "mycar.yaml", "--only", "pump-stalled", "--phase", "pulling-away"};
        Outcome outcome = run(faults);
        assertThat(outcome.status)
                .as("a new car claims everything: " + outcome.err)
                .isEqualTo(1);
        assertThat(folder.resolve("out/faults.json")).isNotEmptyFile();
    }

    @Test
    void shouldTellOneRunInFull() throws Exception {
        Outcome outcome = run("faults", "--run", "pump-stalled@pulling-away@hot", "--csv", "run.csv");
        assertThat(outcome.status).as(outcome.err).isZero();
        assertThat(outcome.out).contains("pump seized, pulling away", "effect: ", "reaction: ");
        assertThat(Files.readAllLines(folder.resolve("run.csv")).get(0)).startsWith("time_s,true_line_pressure_pa");
    }

    @Test
    void shouldSpeakUsUnitsWhereAsked() throws Exception {
        Outcome outcome = run("prove", "--units", "us", "hill-hold");
        assertThat(outcome.out).contains("psi", "°F").doesNotContain(" bar", "°C");
        assertThat(Files.readString(folder.resolve("out/report.html")))
                .contains("psi")
                .doesNotContain(" bar<");
    }
}
