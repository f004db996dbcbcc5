package linehold.simulator.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import linehold.simulator.build.InputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;

class PlantCommandTest {
    private static final String HEADER = "time_s,shaft_rpm,coil,low_band,high_clutch,oil_c,bus_v_open\n";
    private static final String GOOD = HEADER + "0,0,1,1,0,60,13.2\n0.3,0,1,1,0,60,13.2\n";

    @TempDir
    Path folder;

    private List<String> run(String trace, String... options) throws IOException {
        return run(trace.getBytes(StandardCharsets.UTF_8), options);
    }

    private List<String> run(byte[] trace, String... options) throws IOException {
        Files.write(folder.resolve("t.csv"), trace);
        List<String> args = new ArrayList<>(List.of("--trace", path("t.csv"), "--out", path("p.csv")));
        Collections.addAll(args, options);
        CommandLine line = new CommandLine(new PlantCommand());
        RuntimeException[] thrown = new RuntimeException[1];
        line.setExecutionExceptionHandler((exception, command, result) -> {
            thrown[0] = (RuntimeException) exception;
            return 2;
        });
        int status = line.execute(args.toArray(String[]::new));
        if (thrown[0] != null) {
            throw thrown[0];
        }
        assertThat(status).isZero();
        return Files.readAllLines(folder.resolve("p.csv"));
    }

    private String path(String file) {
        return folder.resolve(file).toString();
    }

    private static double[] numbers(String line) {
        return java.util.Arrays.stream(line.split(","))
                .mapToDouble(Double::parseDouble)
                .toArray();
    }

    @Test
    void shouldWriteARowEveryMillisecondFromTheFirstToTheLast() throws IOException {
        List<String> lines = run(GOOD);
        assertThat(lines.get(0))
                .isEqualTo("time_s,line_pressure_pa,pump_speed_rad_s,pump_current_a,pump_flow_m3_s,"
                        + "internal_flow_m3_s,low_band_volume_m3,high_clutch_volume_m3");
        assertThat(lines).hasSize(302);
        assertThat(lines.get(4)).startsWith("0.003,");
        assertThat(lines.get(301)).startsWith("0.3,");
    }

    @Test
    void shouldStartFromTheGivenStateInWhateverUnit() throws IOException {
        List<String> lines = run(
                GOOD,
                "--every",
                "100 ms",
                "--initial-pressure",
                "8bar",
                "--initial-pump-speed",
                "2580rpm",
                "--initial-low-band",
                "35.7cm3",
                "--initial-high-clutch",
                "1 mL");
        double[] first = numbers(lines.get(1));
        assertThat(lines).hasSize(5);
        assertThat(first[1]).isCloseTo(8e5, within(1e-3));
        assertThat(first[2]).isCloseTo(2580 * Math.PI / 30, within(1e-9));
        assertThat(first[6]).isCloseTo(35.7e-6, within(1e-15));
        assertThat(first[7]).isCloseTo(1e-6, within(1e-15));
    }

    @Test
    void shouldReadATraceThatASpreadsheetHasPutAByteOrderMarkBefore() throws IOException {
        assertThat(run("\uFEFF" + GOOD)).hasSize(302);
    }

    @Test
    void shouldWriteTheSameBytesTwice() throws IOException {
        List<String> first = run(GOOD);
        assertThat(run(GOOD)).isEqualTo(first);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "0.5,0,1,1,0,60,13.2 | row 2: time_s: found '0.5', expected 0 in the first row",
                "0,0,2,1,0,60,13.2 | row 2: coil: found '2', expected 0 or 1",
                "0,fast,1,1,0,60,13.2 | row 2: shaft_rpm: found 'fast', expected a finite number",
                "0,NaN,1,1,0,60,13.2 | row 2: shaft_rpm: found 'NaN', expected a finite number",
                "0,0,1,1,0,1e6,13.2 | row 2: oil_c: found '1e6', expected a temperature from -60 to 200 °C",
                "0,0,1,1,0,60,'' | row 2: bus_v_open: found '', expected a finite number",
            })
    void shouldNameRowColumnFoundAndExpected(String row, String message) {
        assertThatThrownBy(() -> run(HEADER + row.replace("''", "") + "\n1,0,1,1,0,60,13.2\n"))
                .isInstanceOf(InputException.class)
                .hasMessage(path("t.csv") + ": " + message);
        assertThat(folder.resolve("p.csv")).doesNotExist();
    }

    @Test
    void shouldRefuseTimeThatDoesNotAdvance() {
        assertThatThrownBy(() -> run(GOOD + "0.3,0,0,1,0,60,13.2\n"))
                .isInstanceOf(InputException.class)
                .hasMessage(
                        path("t.csv") + ": row 4: time_s: found '0.3', expected more than the 0.3 of the row before");
    }

    @Test
    void shouldNameAMissingColumn() {
        assertThatThrownBy(() -> run(GOOD.replace(",oil_c", ",oil")))
                .isInstanceOf(InputException.class)
                .hasMessage(path("t.csv")
                        + ": found no column 'oil_c', expected the columns time_s, shaft_rpm, coil, low_band,"
                        + " high_clutch, oil_c, bus_v_open");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "'' | found no rows, expected at least two",
                "0,0,1,1,0,60,13.2 | found one row, expected at least two"
            })
    void shouldRefuseATraceWithoutALength(String rows, String message) {
        assertThatThrownBy(() -> run(HEADER + rows + "\n"))
                .isInstanceOf(InputException.class)
                .hasMessage(path("t.csv") + ": " + message);
    }

    @Test
    void shouldRefuseARowWithAFieldTooFewAndBytesThatAreNoText() {
        assertThatThrownBy(() -> run(GOOD + "0.4,0,0\n"))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith(path("t.csv") + ": ");
        assertThatThrownBy(() -> run(new byte[] {(byte) 0xC3, (byte) 0x28, '\n'}))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith(path("t.csv") + ": ");
    }

    @ParameterizedTest
    @CsvSource({
        "--every, 0 s, expected a time of at least 0.001 ms",
        "--every, 5, 'expected a time with its unit (s, ms, min, h)'",
        "--initial-pressure, -1 bar, expected a pressure of at least 0",
        "--initial-low-band, 3 bar, expected a volume with its unit",
    })
    void shouldRefuseAnImpossibleOption(String option, String value, String expected) {
        assertThatThrownBy(() -> run(GOOD, option, value))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith(option + ": found '" + value + "', ")
                .hasMessageContaining(expected);
    }

    @Test
    void shouldLeaveAnOlderResultAloneWhenTheRunFails() throws IOException {
        List<String> before = run(GOOD);
        assertThatThrownBy(() -> run(GOOD + "1,0,1,1,0,60,x\n")).isInstanceOf(InputException.class);
        assertThat(Files.readAllLines(folder.resolve("p.csv"))).isEqualTo(before);
        try (var files = Files.list(folder)) {
            assertThat(files.map(file -> file.getFileName().toString())).containsExactlyInAnyOrder("t.csv", "p.csv");
        }
    }

    @Test
    void shouldSayThatThereIsNoTrace() {
        CommandLine line = new CommandLine(new PlantCommand());
        line.setExecutionExceptionHandler((exception, command, result) -> {
            assertThat(exception)
                    .isInstanceOf(InputException.class)
                    .hasMessage(path("none.csv") + ": found no such file, expected a CSV trace");
            return 2;
        });
        assertThat(line.execute("--trace", path("none.csv"), "--out", path("p.csv")))
                .isEqualTo(2);
    }
}
