package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.build.InputException;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.window.Watch;
import linehold.simulator.window.Window;
import linehold.simulator.window.WindowFinder;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class WindowReportTest {
    private static Window there;
    private static Window none;

    @TempDir
    private Path folder;

    @BeforeAll
    static void find() {
        there = found(Builds.demonstration());
        none = found(Builds.weak().withUnits(UnitSystem.US));
    }

    private static Window found(Build build) {
        return new WindowFinder(build, List.of(60.0, 120.0), Watch.NOBODY).find();
    }

    private static Document page(Window window, List<String> changes) throws Exception {
        String html = WindowHtml.of(window, window.build().units(), changes);
        return DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(new InputSource(new StringReader(html)));
    }

    @Test
    void shouldBeAWellFormedPageThatNeedsNothingFromOutside() throws Exception {
        for (Window window : List.of(there, none)) {
            assertThat(page(window, List.of("a < b")).getDocumentElement().getTagName())
                    .isEqualTo("html");
            assertThat(WindowHtml.of(window, UnitSystem.METRIC, null))
                    .doesNotContain("http:", "https:", "<script", "<link", "<img", "@import", "url(", "src=");
        }
    }

    @Test
    void shouldDrawAMapForEachOilTemperatureWithContourRuleAndRecommendation() throws Exception {
        String html = WindowHtml.of(there, UnitSystem.METRIC, null);
        assertThat(html.split("class=\"hold contour\"", -1)).hasSize(3);
        assertThat(html.split("class=\"moment\"", -1)).hasSize(1 + 2 * 2);
        assertThat(html.split("class=\"mark\"", -1)).hasSize(1 + 2 * 2);
        int cells = there.maps().stream()
                .mapToInt(map -> map.onRadPerS().size() * map.rates().size())
                .sum();
        assertThat(html.split("class=\"cell ", -1)).hasSize(1 + cells);
        // The weak build recommends nothing.
        assertThat(WindowHtml.of(none, UnitSystem.METRIC, null)).doesNotContain("class=\"mark\"");
    }

    @Test
    void shouldSayTheAnswerInTheTerminalWithinItsWidth() {
        String text = WindowTable.of(there, UnitSystem.METRIC, null);
        assertThat(text).contains("WINDOW: on below ", "hardest stop", "500 rpm rule", "Lowered by");
        assertThat(text.lines()).allMatch(line -> line.length() <= 100);
        String lost = WindowTable.of(none, UnitSystem.US, null);
        assertThat(lost)
                .contains("NO WINDOW.", "1. Half the leakage", "psi", "in³")
                .doesNotContain(" bar");
        assertThat(lost.lines()).allMatch(line -> line.length() <= 100);
    }

    @Test
    void shouldWriteEveryPartIntoTheJson() {
        JsonNode json = JsonMapper.shared().readTree(WindowJson.toBytes(there));
        assertThat(json.get("window").asString()).isEqualTo("exists");
        assertThat(json.get("stops")).hasSize(24);
        assertThat(json.get("stops")
                        .get(0)
                        .get("falling_speed")
                        .get("on_rad_per_s")
                        .isNumber())
                .isTrue();
        assertThat(json.get("lead")).hasSize(4);
        assertThat(json.get("pair").get("on_bounds")).hasSize(4);
        assertThat(json.get("maps")).hasSize(2);
        JsonNode lost = JsonMapper.shared().readTree(WindowJson.toBytes(none));
        assertThat(lost.get("window").asString()).isEqualTo("none");
        assertThat(lost.get("pair").isNull()).isTrue();
        assertThat(lost.get("remedies").get(0).get("opens").asBoolean()).isTrue();
    }

    @Test
    void shouldNotDependOnTheLocale() {
        byte[] json = WindowJson.toBytes(there);
        String html = WindowHtml.of(there, UnitSystem.US, null);
        String text = WindowTable.of(none, UnitSystem.US, null);
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(new Locale("ar", "EG"));
            assertThat(WindowJson.toBytes(there)).isEqualTo(json);
            assertThat(WindowHtml.of(there, UnitSystem.US, null)).isEqualTo(html);
            assertThat(WindowTable.of(none, UnitSystem.US, null)).isEqualTo(text);
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void shouldCompareLineByLineInAPersonsUnits() {
        assertThat(compared(WindowJson.toBytes(there), WindowJson.toBytes(there)))
                .isEmpty();
        byte[] before =
                bytes("{'pair': {'on_rad_per_s': 52.35987755982988}, 'carry': [{'oil_c': 60, 'hold_rad_per_s': 1}],"
                        + " 'maps': 1, 'standstill': [{'oil_c': 20, 'full_bus_pa': 400000}]}");
        byte[] now = bytes("{'pair': {'on_rad_per_s': 62.83185307179586}, 'carry': [{'oil_c': 20, 'hold_rad_per_s': 1},"
                + " {'oil_c': 60, 'hold_rad_per_s': null}], 'maps': 2,"
                + " 'standstill': [{'oil_c': 20, 'full_bus_pa': 400000.001}]}");
        assertThat(compared(before, now))
                .containsExactly(
                        "pair, on: 500 rpm → 600 rpm",
                        "carry, 20 °C, hold: not there → 10 rpm",
                        "carry, 60 °C, hold: 10 rpm → none");
        assertThat(compared(now, before)).contains("carry, 20 °C, hold: 10 rpm → not there");
    }

    private static List<String> compared(byte[] before, byte[] now) {
        return Comparison.lines(before, now, UnitSystem.METRIC, Set.of("maps"));
    }

    private static byte[] bytes(String json) {
        return json.replace('\'', '"').getBytes(StandardCharsets.UTF_8);
    }

    @Test
    void shouldRefuseAPreviousFileThatIsNone() throws IOException {
        Path missing = folder.resolve("nothing.json");
        assertThatThrownBy(() -> Comparison.read(missing, "window"))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith(missing + ": found no such file");
        Path text = Files.writeString(folder.resolve("text.json"), "on: 500");
        assertThatThrownBy(() -> Comparison.read(text, "window"))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith(text + ": found text that is no JSON");
        Path other = Files.writeString(folder.resolve("verdict.json"), "{\"verdict\": \"held\"}");
        assertThatThrownBy(() -> Comparison.read(other, "window"))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith(other + ": found another kind of file");
        Path folderItself = Files.createDirectory(folder.resolve("folder.json"));
        assertThatThrownBy(() -> Comparison.read(folderItself, "window")).isInstanceOf(InputException.class);
    }
}
