package linehold.simulator.run;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import linehold.simulator.TestBuilds;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/**
 * The circuit against runs of an independent adaptive stiff solver (Radau, relative tolerance 1e-9, restarted at every
 * kink), which lie beside the repository where the project keeps its reference data.
 */
class PlantCasesTest {
    /** Absolute and relative bound of line pressure: section "Numerics" of docs/model.md. */
    private static final double PRESSURE_PA = 500;

    private static final double PRESSURE_RELATIVE = 1e-3;
    /** A tenth of a per cent of the band's stroke. */
    private static final double VOLUME_M3 = 35e-9;

    private static final double PUMP_RAD_PER_S = 0.3;

    @ParameterizedTest
    @ValueSource(
            strings = {
                "decel_110_20000_late",
                "prime_100",
                "prime_20",
                "rollback_pump_off",
                "shift_standstill",
                "stop_go_60s"
            })
    void shouldStayWithinTheStatedBoundsOfTheReferenceRun(String name) throws IOException {
        Path folder = folder();
        assumeTrue(
                Files.isDirectory(folder), "skipped: the reference runs (shared/reference/plant-cases) are not here");
        JsonNode start = new ObjectMapper().readTree(Files.readString(folder.resolve(name + ".json")));
        StringWriter out = new StringWriter();
        try (Reader trace = Files.newBufferedReader(folder.resolve(name + ".trace.csv"))) {
            new OpenLoop(
                            TestBuilds.demonstration(),
                            new OpenLoop.Initial(
                                    start.get("p0").asDouble(),
                                    start.get("w0").asDouble(),
                                    start.get("v_low").asDouble(),
                                    start.get("v_high").asDouble()),
                            start.get("every").asDouble())
                    .run(name, trace, out);
        }
        List<double[]> ours = rows(new StringReader(out.toString()));
        List<double[]> reference = rows(Files.newBufferedReader(folder.resolve(name + ".out.csv")));

        assertThat(ours).hasSameSizeAs(reference);
        double worst = 0;
        for (int i = 0; i < ours.size(); i++) {
            double[] own = ours.get(i);
            double[] expected = reference.get(i);
            String row = name + " at " + expected[0] + " s";
            assertThat(own[0]).as(row + ": time, s").isCloseTo(expected[0], within(1e-9));
            double bound = PRESSURE_PA + PRESSURE_RELATIVE * expected[1];
            worst = Math.max(worst, Math.abs(own[1] - expected[1]) / bound);
            assertThat(own[1]).as(row + ": line pressure, Pa").isCloseTo(expected[1], within(bound));
            assertThat(own[2]).as(row + ": pump speed, rad/s").isCloseTo(expected[2], within(PUMP_RAD_PER_S));
            assertThat(own[6]).as(row + ": band volume, m³").isCloseTo(expected[6], within(VOLUME_M3));
            assertThat(own[7]).as(row + ": clutch volume, m³").isCloseTo(expected[7], within(VOLUME_M3));
        }
        System.out.printf(Locale.ROOT, "%s: worst pressure deviation %.3f of the bound%n", name, worst);
    }

    private static Path folder() {
        Path root = Path.of(System.getProperty("linehold.root", ".")).toAbsolutePath();
        Path beside = root.resolveSibling("shared");
        return beside.resolve("reference").resolve("plant-cases");
    }

    private static List<double[]> rows(Reader csv) throws IOException {
        try (java.io.BufferedReader lines = new java.io.BufferedReader(csv)) {
            return lines.lines()
                    .skip(1)
                    .map(line -> java.util.Arrays.stream(line.split(","))
                            .mapToDouble(Double::parseDouble)
                            .toArray())
                    .toList();
        }
    }
}
