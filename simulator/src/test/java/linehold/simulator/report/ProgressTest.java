package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class ProgressTest {
    @Test
    void shouldWriteNothingWithoutATerminal() {
        ByteArrayOutputStream written = new ByteArrayOutputStream();
        PrintStream before = System.err;
        System.setErr(new PrintStream(written, true, StandardCharsets.UTF_8));
        try (Progress progress = Progress.onTerminal(false, "Proving", 3)) {
            IntStream.range(0, 3).parallel().forEach(i -> progress.step());
        } finally {
            System.setErr(before);
        }
        assertThat(written.toByteArray()).isEmpty();
    }

    @Test
    void shouldCountTheStepsOfManyThreads() {
        ByteArrayOutputStream written = new ByteArrayOutputStream();
        try (Progress progress =
                Progress.on(new PrintStream(written, true, StandardCharsets.UTF_8), "Proving", 10_000)) {
            IntStream.range(0, 10_000).parallel().forEach(i -> progress.step());
        }
        assertThat(written.toString(StandardCharsets.UTF_8)).contains("Proving", "10000/10000");
    }
}
