package linehold.simulator.build;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The published schema in an independent validator (networknt json-schema-validator). */
class BuildSchemaTest {
    private final Schema schema = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(BuildSchema.text(), InputFormat.JSON);

    private List<?> complaints(String yaml) {
        return schema.validate(yaml, InputFormat.YAML);
    }

    private static String shipped(String name) {
        return new String(BuildFile.shipped(name), StandardCharsets.UTF_8);
    }

    @ParameterizedTest
    @ValueSource(strings = {"demonstration", "rule-of-thumb", "weak"})
    void shouldAcceptTheShippedBuilds(String name) {
        assertThat(complaints(shipped(name))).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(UnitSystem.class)
    void shouldAcceptTheStartingFile(UnitSystem units) {
        assertThat(complaints(StartingFile.text("mycar", units))).isEmpty();
    }

    @Test
    void shouldAcceptEverySpellingThatTheProgramReads() {
        String yaml = GoodFile.TEXT
                .replace("gain: 24 L/(min.bar)", "gain: 4e-9 m³/(s·Pa)")
                .replace("dry-friction: 0.03 N.m", "dry-friction: 0.03 Nm")
                .replace("armature-resistance: 0.12 ohm", "armature-resistance: 120 mΩ")
                .replace("volume: 0.60 L", "volume: 600ml")
                .replace("pour-point: -45 °C", "pour-point: \u221249 degF")
                .replace("displacement: 24 cm3/rev", "displacement: 24 cm3/rev +- 5 %")
                .replace("leak-bore: 1.0 mm", "leak-bore: 1.0 mm±.05mm")
                .replace("oil:\n", "oil:\n  entrained-air: 0.03 +/- 0.01\n")
                .replace("  entrained-air: 3 %\n", "")
                .replace("calibration:\n", "calibration:\n  carry-speed: {-20 °C: 50 rpm, 120 °C: 260 rpm}\n");

        assertThat(complaints(yaml)).isEmpty();
        assertThat(BuildFile.parse("mycar.yaml", yaml.getBytes(StandardCharsets.UTF_8))
                        .line()
                        .volumeM3())
                .isEqualTo(0.0006);
    }

    @ParameterizedTest
    @CsvSource({
        "volume: 0.60 L, volume: 0.6 bar",
        "volume: 0.60 L, volume: 0.6",
        "volume: 0.60 L, volum: 0.6 L",
        "units: metric, units: imperial",
        "drum-helps: true, drum-helps: perhaps",
        "pulses-per-revolution: 4, pulses-per-revolution: 2.5",
        "friction-coefficient: 0.12, friction-coefficient: 12",
        "name: demonstration, nickname: demonstration",
        "switch-on-speed: 700 rpm, switch-on-speed: {warm: 700 rpm}",
        "calibration:, calibrations:",
        "volume: 0.60 L, volume: 0.60 L ± 5 bar",
        "volume: 0.60 L, volume: 0.60 L ±",
        "pour-point: -45 °C, pour-point: -45 °C ± 5 %",
        "hold-pressure: 4.0 bar, hold-pressure: 4.0 bar ± 5 %",
    })
    void shouldRefuseWhatTheProgramRefuses(String good, String bad) {
        assertThat(GoodFile.TEXT).contains(good);
        assertThat(complaints(GoodFile.TEXT.replace(good, bad))).isNotEmpty();
    }
}
