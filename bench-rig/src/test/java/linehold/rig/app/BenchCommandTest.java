package linehold.rig.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import linehold.rig.board.BoardFile;
import linehold.rig.procedure.Cautions;
import linehold.rig.procedure.Procedure;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code linehold bench} as a person starts it, in a process of its own. */
class BenchCommandTest {
    @TempDir
    private Path folder;

    private record Outcome(int status, String out, String err) {}

    /** @param keys what is typed, a piece at a time once the output has the text before it: text, keys, text, keys … */
    private Outcome run(List<String> keys, List<String> javaOptions, String... args)
            throws IOException, InterruptedException {
        Path out = folder.resolve("stdout.txt");
        Process process = start(javaOptions, args);
        try (OutputStream typing = process.getOutputStream()) {
            for (int i = 0; i < keys.size(); i += 2) {
                await(out, keys.get(i), process);
                typing.write(keys.get(i + 1).getBytes(StandardCharsets.UTF_8));
                typing.flush();
            }
        } catch (IOException e) {
            assertThat(process.isAlive()).as("ended before all was typed").isFalse();
        }
        return ended(process);
    }

    private Outcome ended(Process process) throws IOException, InterruptedException {
        assertThat(process.waitFor(120, TimeUnit.SECONDS)).as("ends in time").isTrue();
        return new Outcome(
                process.exitValue(),
                Files.readString(folder.resolve("stdout.txt")),
                Files.readString(folder.resolve("stderr.txt")));
    }

    private Process start(List<String> javaOptions, String... args) throws IOException {
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(javaOptions);
        command.addAll(List.of("-cp", System.getProperty("java.class.path"), "linehold.rig.app.Main", "bench"));
        command.addAll(List.of(args));
        return new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectOutput(folder.resolve("stdout.txt").toFile())
                .redirectError(folder.resolve("stderr.txt").toFile())
                .start();
    }

    private static void await(Path file, String text, Process process) throws IOException, InterruptedException {
        while (process.isAlive() && !Files.readString(file).contains(text)) {
            Thread.sleep(20);
        }
    }

    private Outcome run(String... args) throws IOException, InterruptedException {
        return run(List.of(), List.of(), args);
    }

    private List<Path> records(String where) throws IOException {
        try (Stream<Path> files = Files.list(folder.resolve(where))) {
            return files.filter(file -> file.toString().endsWith(".json"))
                    .sorted()
                    .toList();
        }
    }

    @Test
    void shouldPassEveryProcedureOnTheHealthySimulatedBenchWithoutAPerson() throws Exception {
        Outcome outcome = run("all", "--yes");
        assertThat(outcome.err).isEmpty();
        assertThat(outcome.status).isZero();
        assertThat(outcome.out).startsWith("Before anything moves:").contains("Park brake on", "Local codes");
        assertThat(records("out/bench")).hasSize(Procedure.values().length);
        assertThat(outcome.out.lines().filter("PASS"::equals)).hasSize(Procedure.values().length);
    }

    @Test
    void shouldMeasureTheSameOnAnyMachine() throws Exception {
        String[] args = {"wiring", "stall-hold", "panic-stop", "--yes", "--out"};
        run(List.of(), List.of("-XX:ActiveProcessorCount=1", "-Duser.language=en"), with(args, "one"));
        run(
                List.of(),
                List.of("-XX:ActiveProcessorCount=4", "-Duser.language=tr", "-Duser.timezone=Asia/Tokyo"),
                with(args, "two"));
        List<Path> one = records("one");
        List<Path> two = records("two");
        assertThat(one).hasSize(3);
        assertThat(two).hasSize(3);
        for (Path first : one) {
            String procedure = first.getFileName().toString().substring(17);
            Path second = two.stream()
                    .filter(file -> file.getFileName().toString().endsWith(procedure))
                    .findFirst()
                    .orElseThrow();
            assertThat(undated(second)).isEqualTo(undated(first));
        }
    }

    private static String[] with(String[] args, String last) {
        String[] all = java.util.Arrays.copyOf(args, args.length + 1);
        all[args.length] = last;
        return all;
    }

    private static String undated(Path file) throws IOException {
        return Files.readString(file).replaceFirst("\"started\" : \"[^\"]*\"", "");
    }

    @Test
    void shouldEndTheListWithStatusOneAtTheFirstThatFails() throws Exception {
        Outcome outcome = run("stall-hold", "leak-down", "prime", "--yes", "--fault", "hose-leak");
        assertThat(outcome.status).isEqualTo(1);
        assertThat(outcome.out).contains("FAIL: The line fell to").doesNotContain("(prime)");
        assertThat(records("out/bench")).hasSize(2);
    }

    @Test
    void shouldStopInTheMiddleByKeyInRealTime() throws Exception {
        Outcome outcome = run(
                List.of("Enter confirms", "\n", "[Enter when it is so]", "\n", "3/7 Main relay alone", "\u001b"),
                List.of(),
                "wiring",
                "pickup");
        assertThat(outcome.status).isEqualTo(1);
        assertThat(outcome.out).contains("STOPPED: Stopped by key.").doesNotContain("(pickup)");
        assertThat(Files.readString(records("out/bench").get(0))).contains("\"outcome\" : \"stopped\"");
    }

    @Test
    void shouldStopWhereTheTerminalIsLost() throws Exception {
        Outcome outcome = run(
                List.of("Enter confirms", "\n", "[Enter when it is so]", "\n", "2/3 Pump on", ""),
                List.of(),
                "stall-hold");
        assertThat(outcome.status).isEqualTo(1);
        assertThat(outcome.out).contains("STOPPED: The terminal was lost.");
    }

    @Test
    void shouldMoveNothingWhereTheCautionsAreNotConfirmed() throws Exception {
        Outcome outcome = run(List.of("Enter confirms", "s"), List.of(), "wiring");
        assertThat(outcome.status).isEqualTo(1);
        assertThat(outcome.out).contains("Not confirmed: nothing has been moved.");
        assertThat(folder.resolve("out")).doesNotExist();
    }

    @Test
    void shouldListItsProcedures() throws Exception {
        Outcome outcome = run("--list");
        assertThat(outcome.status).isZero();
        assertThat(outcome.out.lines()).hasSize(Procedure.values().length);
        assertThat(outcome.out).contains("wiring ", "panic-stop ");
    }

    @Test
    void shouldEndWithStatusTwoAndOneSentenceForBadInput() throws Exception {
        for (String[] args : new String[][] {
            {},
            {"wirin"},
            {"wiring", "--yes", "--fault", "hose-leek"},
            {"wiring", "--yes", "--oil", "warm"},
            {"wiring", "--yes", "--cycles", "0"},
            {"wiring", "--yes", "--build", "nosuch.yaml"},
            {"wiring", "--io", "pi"},
            {"wiring", "--io", "pi", "--board", "nosuch.yaml"},
            {"wiring", "--io", "pi", "--yes"},
            {"wiring", "--io", "pi", "--fault", "hose-leak"},
            {"wiring", "--port", "8230"},
            {"wiring", "--listen", "127.0.0.1"},
            {"wiring", "--bench-from-network"},
            {"--page", "wiring"},
            {"--page", "--yes"},
            {"--page", "--bench-from-network"},
            {"--page", "--port", "70000"},
            {"--page", "--oil", "warm"},
            {"--page", "--io", "pi"},
            {"--page", "--io", "pi", "--fault", "hose-leak"}
        }) {
            Outcome outcome = run(args);
            assertThat(outcome.status).as(String.join(" ", args)).isEqualTo(2);
            assertThat(outcome.err.strip().lines()).as(outcome.err).hasSize(1);
            assertThat(outcome.err).startsWith("linehold: ");
            assertThat(outcome.out).as("before any caution").isEmpty();
        }
        assertThat(folder.resolve("out")).doesNotExist();
    }

    @Test
    void shouldServeTheBenchPageAndWriteTheRecordOfWhatRunsWhenItIsToldToEnd() throws Exception {
        Process process = start(List.of(), "--page", "--port", "0", "--fault", "hose-leak");
        Path out = folder.resolve("stdout.txt");
        await(out, "#/bench", process);
        String address = Files.readString(out).replaceFirst("(?s).*page: (http://127.0.0.1:\\d+)/.*", "$1");
        String secret = post(address, "key", "{\"cautions\":\"" + Cautions.MARK + "\"}")
                .replaceFirst("\\{\"secret\":\"([0-9a-f]{32})\"}", "$1");
        post(address, "start", "{\"secret\":\"" + secret + "\",\"procedure\":\"stall-hold\"}");
        process.destroy();
        Outcome outcome = ended(process);
        assertThat(outcome.out).contains("Hold at stall pressure: STOPPED: The program was told to end.");
        assertThat(records("out/bench")).hasSize(1);
        assertThat(Files.readString(records("out/bench").get(0))).contains("simulated, seed 1, fault hose-leak");
    }

    private static String post(String address, String what, String body) throws IOException, InterruptedException {
        HttpRequest request = HttpRequest.newBuilder(URI.create(address + "/api/bench/" + what))
                .header("Origin", address)
                .POST(BodyPublishers.ofString(body))
                .build();
        HttpResponse<String> answer = HttpClient.newHttpClient().send(request, BodyHandlers.ofString());
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        return answer.body();
    }

    @Test
    void shouldEndWithOneSentenceWhereThePortOfItsPageIsTaken() throws Exception {
        try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            Outcome outcome = run("--page", "--port", String.valueOf(taken.getLocalPort()));
            assertThat(outcome.status).isEqualTo(2);
            assertThat(outcome.err.strip().lines()).as(outcome.err).hasSize(1);
            assertThat(outcome.err).contains("cannot be opened");
        }
    }

    @Test
    void shouldOpenNoLineOfABoardForItsPageBeforeTheCautionsAreConfirmedAtTheTerminal() throws Exception {
        Files.writeString(folder.resolve("board.yaml"), BoardFile.example());
        Outcome outcome =
                run(List.of("Enter confirms", "s"), List.of(), "--page", "--io", "pi", "--board", "board.yaml");
        assertThat(outcome.err).isEmpty();
        assertThat(outcome.status).isEqualTo(1);
        assertThat(outcome.out)
                .startsWith("Before anything moves:")
                .contains("Not confirmed: nothing has been moved.")
                .doesNotContain("page:");
    }
}
