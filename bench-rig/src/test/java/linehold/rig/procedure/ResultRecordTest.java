package linehold.rig.procedure;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import linehold.simulator.build.Build;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.fault.FaultKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class ResultRecordTest {
    private static final Instant STARTED = Instant.parse("2026-03-01T08:09:10.987Z");

    @TempDir
    private Path folder;

    private static ResultRecord record(Build build, Result result) {
        return new ResultRecord(result, new Bench(build, 1), "simulated, seed 1", STARTED);
    }

    private static JsonNode finding(JsonNode root, String key) {
        for (JsonNode finding : root.path("findings")) {
            if (finding.path("key").asString().equals(key)) {
                return finding;
            }
        }
        throw new AssertionError("no finding " + key);
    }

    @Test
    void shouldTellWhatWasMeasuredAgainstWhatOnWhichBuild() throws IOException {
        Result result = VirtualBench.healthy(60).run(Procedure.STALL_HOLD);
        Path file = record(VirtualBench.DEMONSTRATION, result).write(folder.resolve("a/b"));
        assertThat(file.getFileName()).hasToString("20260301T080910Z-stall-hold.json");
        JsonNode root = JsonMapper.builder().build().readTree(Files.readAllBytes(file));
        assertThat(root.path("format").asInt()).isEqualTo(1);
        assertThat(root.path("procedure").asString()).isEqualTo("stall-hold");
        assertThat(root.path("outcome").asString()).isEqualTo("pass");
        assertThat(root.path("sentence").isNull()).isTrue();
        assertThat(root.path("started").asString()).isEqualTo("2026-03-01T08:09:10Z");
        assertThat(root.path("build").path("sha256").asString()).isEqualTo(VirtualBench.DEMONSTRATION.sha256());
        assertThat(root.path("build").path("calibration_crc32").asString()).hasSize(8);
        assertThat(root.path("oil_temperature").path("unit").asString()).isEqualTo("°C");
        JsonNode mean = finding(root, "mean-pressure");
        assertThat(mean.path("unit").asString()).isEqualTo("bar");
        assertThat(mean.path("value").asDouble()).isBetween(8.0, 8.1);
        assertThat(mean.path("least").asDouble()).isBetween(7.2, 7.3);
        assertThat(mean.path("most").isNull()).isTrue();
        assertThat(mean.path("verdict").asString()).isEqualTo("pass");
        assertThat(finding(root, "pressure-build").path("verdict").asString()).isEqualTo("information");
        assertThat(folder.resolve("a/b/20260301T080910Z-stall-hold.txt"))
                .content()
                .startsWith("Hold at stall pressure: pass\n")
                .contains("Mean line pressure", "8.05 bar", "≥ 7.24 bar", "ok", "2026-03-01T08:09:10Z");
    }

    @Test
    void shouldTellAFailureInItsSentenceAndAtItsValue() throws IOException {
        Result result = VirtualBench.with(FaultKind.HOSE_LEAK, 0).run(Procedure.LEAK_DOWN);
        ResultRecord record = record(VirtualBench.DEMONSTRATION, result);
        JsonNode root = JsonMapper.builder().build().readTree(record.json());
        assertThat(root.path("outcome").asString()).isEqualTo("fail");
        assertThat(root.path("sentence").asString()).contains("a leak in hose");
        assertThat(finding(root, "tenth-time").path("verdict").asString()).isEqualTo("fail");
        assertThat(record.text()).contains("Leak-down: fail", "a leak in hose", "OUT");
    }

    /** 8.05 bar are 116.8 psi, 60 °C are 140 °F (NIST SP 811, Appendix B). */
    @Test
    void shouldSpeakTheUnitsOfTheBuild() throws IOException {
        Build us = VirtualBench.DEMONSTRATION.withUnits(UnitSystem.US);
        Result result = new VirtualBench(us, us, 60, List.of()).run(Procedure.STALL_HOLD);
        JsonNode root = JsonMapper.builder().build().readTree(record(us, result).json());
        assertThat(finding(root, "mean-pressure").path("unit").asString()).isEqualTo("psi");
        assertThat(finding(root, "mean-pressure").path("value").asDouble()).isBetween(116.5, 117.0);
        assertThat(root.path("oil_temperature").path("value").asDouble()).isEqualTo(140.0);
        assertThat(record(us, result).text()).contains("psi").doesNotContain(" bar");
    }

    @Test
    void shouldBeTheSameBytesForTheSameRun() {
        byte[] first = record(
                        VirtualBench.DEMONSTRATION, VirtualBench.healthy(60).run(Procedure.PANIC_STOP))
                .json();
        byte[] second = record(
                        VirtualBench.DEMONSTRATION, VirtualBench.healthy(60).run(Procedure.PANIC_STOP))
                .json();
        assertThat(new String(second, StandardCharsets.UTF_8)).isEqualTo(new String(first, StandardCharsets.UTF_8));
    }
}
