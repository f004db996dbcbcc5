package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.TreeSet;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.prove.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class VerdictJsonTest {
    private static JsonNode parsed(Verdict verdict) {
        return JsonMapper.builder().build().readTree(VerdictJson.toBytes(verdict));
    }

    @Test
    void shouldCarryEveryFieldThatOthersRelyOn() {
        JsonNode root = parsed(Fixtures.large());

        assertThat(root.get("format").asInt()).isEqualTo(1);
        assertThat(root.get("verdict").asString()).isEqualTo("lost");
        assertThat(root.get("build").get("name").asString()).isEqualTo("demonstration");
        assertThat(root.get("build").get("sha256").asString()).hasSize(64);
        assertThat(root.get("runs").size()).isEqualTo(60);
        for (JsonNode run : root.get("runs")) {
            assertThat(run.propertyNames())
                    .contains(
                            "drive",
                            "oil_c",
                            "verdict",
                            "duration_s",
                            "engaged_pressure_min_pa",
                            "engaged_pressure_min_at_s",
                            "margin_min",
                            "margin_min_at_s",
                            "below_hold_s",
                            "longest_engagement_s",
                            "refused_s",
                            "relay_operations",
                            "pump_on_share",
                            "air_drawn_m3",
                            "codes");
            assertThat(run.get("codes").isArray()).isTrue();
        }
    }

    @Test
    void shouldGiveBackTheNumbersOfTheVerdictInSiUnits() {
        Verdict verdict = Fixtures.large();
        JsonNode runs = parsed(verdict).get("runs");

        for (int i = 0; i < runs.size(); i++) {
            RunVerdict run = verdict.runs().get(i);
            JsonNode json = runs.get(i);
            assertThat(json.get("drive").asString()).isEqualTo(run.drive());
            assertThat(json.get("verdict").asString()).isEqualTo(run.held() ? "held" : "lost");
            assertThat(json.get("oil_c").asDouble()).isEqualTo(run.oilC());
            assertThat(json.get("engaged_pressure_min_pa").asDouble()).isEqualTo(run.engagedPressureMinPa());
            assertThat(json.get("margin_min").asDouble()).isEqualTo(run.marginMin());
            assertThat(json.get("relay_operations").asLong()).isEqualTo(run.relayOperations());
            assertThat(json.get("air_drawn_m3").asDouble()).isEqualTo(run.airDrawnM3());
            assertThat(json.get("losses").size()).isEqualTo(run.losses().size());
        }
    }

    @Test
    void shouldWriteNullWhereSomethingNeverHappened() {
        JsonNode run = parsed(Fixtures.empty()).get("runs").get(0);

        assertThat(run.get("engaged_pressure_min_pa").isNull()).isTrue();
        assertThat(run.get("engaged_pressure_min_at_s").isNull()).isTrue();
        assertThat(run.get("engaged_pressure_min_gear").isNull()).isTrue();
        assertThat(run.get("margin_min").isNull()).isTrue();
        assertThat(run.get("primed_at_s").isNull()).isTrue();
        assertThat(run.get("losses").get(0).get("at_s").isNull()).isTrue();
    }

    @Test
    void shouldBeTheSameBytesInAnyLocale() {
        byte[] first = VerdictJson.toBytes(Fixtures.large());
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
            assertThat(VerdictJson.toBytes(Fixtures.large())).isEqualTo(first);
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void shouldEndLinesWithLineFeedsAlone() {
        String text = new String(VerdictJson.toBytes(Fixtures.held()), StandardCharsets.UTF_8);
        assertThat(text).doesNotContain("\r").endsWith("}\n").contains("\n  \"verdict\" : \"held\"");
    }

    /** Before JDK 19 Double.toString gives 1.9999999999999998E23 for 2e23 (JDK-4511638). */
    @Test
    void shouldWriteTheShortestNumberThatReadsBackExactly() {
        for (double value : new double[] {2e-3, 2e23, 0.1 + 0.2, 1.0 / 3, 4e5}) {
            String text = lengthOfDrive(value);
            assertThat(Double.parseDouble(text)).isEqualTo(value);
            int digits = new BigDecimal(text).stripTrailingZeros().precision();
            for (int fewer = 1; fewer < digits; fewer++) {
                BigDecimal shorter = new BigDecimal(value).round(new java.math.MathContext(fewer));
                assertThat(shorter.doubleValue())
                        .as("%s with %d digits", text, fewer)
                        .isNotEqualTo(value);
            }
        }
    }

    @Test
    void shouldKeepANameWithQuotesMarkupAndControlCharactersIntact() {
        String name = "<b>&\" \\ \u0001 \u2028 ∅";
        assertThat(parsed(Fixtures.named(name)).get("runs").get(0).get("drive").asString())
                .isEqualTo(name);
    }

    @Test
    void shouldDescribeEveryFieldInTheDocument() throws IOException {
        Path root = Path.of(System.getProperty("linehold.root", ".."));
        String document = Files.readString(root.resolve("docs/verdict-json.md"));
        TreeSet<String> names = new TreeSet<>();
        collect(parsed(Fixtures.large()), names);
        assertThat(names).allSatisfy(name -> assertThat(document).contains("`" + name + "`"));
    }

    @Test
    void shouldReplaceAFileThatIsThere(@TempDir Path folder) throws IOException {
        Path file = Files.writeString(folder.resolve("verdict.json"), "x".repeat(1_000_000));
        VerdictJson.write(Fixtures.held(), file);
        assertThat(Files.readAllBytes(file)).isEqualTo(VerdictJson.toBytes(Fixtures.held()));
    }

    private static void collect(JsonNode node, TreeSet<String> names) {
        if (node.isObject()) {
            names.addAll(node.propertyNames());
        }
        node.forEach(child -> collect(child, names));
    }

    private static String lengthOfDrive(double lengthS) {
        Verdict verdict = new Verdict(
                Fixtures.build("length"), java.util.List.of(Fixtures.run("length", 20, lengthS, false, false)), "none");
        String text = new String(VerdictJson.toBytes(verdict), StandardCharsets.UTF_8);
        return text.replaceAll("(?s).*\"duration_s\" : ([^,]*),.*", "$1");
    }
}
