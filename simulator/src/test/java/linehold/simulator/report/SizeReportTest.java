package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import javax.xml.parsers.DocumentBuilderFactory;
import linehold.simulator.EditedBuild;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.build.InputException;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.size.SizeLine;
import linehold.simulator.size.SizeSheet;
import linehold.simulator.size.Sizer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;

class SizeReportTest {
    private static final SizeSheet SHEET = Sizer.sheet(Builds.demonstration());

    @TempDir
    Path folder;

    private static SizeSheet thinCable() {
        return Sizer.sheet(EditedBuild.of("    awg: 10\n", "    awg: 16\n"));
    }

    private static SizeSheet without(String key) {
        return new SizeSheet(
                SHEET.build(),
                SHEET.lines().stream().filter(line -> !line.key().equals(key)).toList());
    }

    private EarlierSheet earlier(SizeSheet sheet) {
        Path file = folder.resolve("earlier.json");
        SizeJson.write(sheet, file);
        return SizeJson.read(file);
    }

    @ParameterizedTest
    @EnumSource(UnitSystem.class)
    void shouldFitAHundredColumnsWithEveryTitleWhole(UnitSystem units) {
        for (SizeSheet sheet : new SizeSheet[] {SHEET, thinCable()}) {
            assertThat(SizeTable.of(sheet, earlier(SHEET), units, false).lines())
                    .allSatisfy(line ->
                            assertThat(line.codePointCount(0, line.length())).isLessThanOrEqualTo(100))
                    .noneMatch(line -> line.contains("…"));
        }
        for (SizeLine line : SHEET.lines()) {
            assertThat(SizeTable.of(SHEET, null, units, false)).contains(line.title());
        }
    }

    @Test
    void shouldSayWhatIsNotGivenByItsKey() {
        SizeSheet sheet = Sizer.sheet(EditedBuild.of("    awg: 10\n", ""));
        assertThat(SizeTable.of(sheet, null, UnitSystem.METRIC, false))
                .contains("Voltage drop of the cable, hottest oil – not given: installation.cable.awg")
                .contains("ENOUGH: ");
        assertThat(SizeHtml.of(sheet, null, UnitSystem.METRIC)).contains("Not given: installation.cable.awg");
    }

    @ParameterizedTest
    @EnumSource(UnitSystem.class)
    void shouldBeAWellFormedPageThatNeedsNothingFromOutside(UnitSystem units) throws Exception {
        String text = SizeHtml.of(thinCable(), earlier(SHEET), units);
        Document page = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(text)));
        assertThat(page.getElementsByTagName("h1").item(0).getTextContent()).isEqualTo("demonstration");
        assertThat(text)
                .doesNotContain("http:", "https:", "<script", "<link", "<img", "@import", "url(", "src=")
                .contains("Local codes, vehicle approval rules and licensed practice prevail")
                .contains("NOT ENOUGH");
    }

    @Test
    void shouldSayTheSameInAnyLocale() {
        String table = SizeTable.of(SHEET, null, UnitSystem.US, false);
        byte[] json = SizeJson.toBytes(SHEET);
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
            SizeSheet again = Sizer.sheet(Builds.demonstration());
            assertThat(SizeTable.of(again, null, UnitSystem.US, false)).isEqualTo(table);
            assertThat(SizeJson.toBytes(again)).isEqualTo(json);
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void shouldFindNothingChangedAgainstItself() {
        assertThat(earlier(SHEET).changes(SHEET, UnitSystem.METRIC)).isEmpty();
        assertThat(SizeTable.of(SHEET, earlier(SHEET), UnitSystem.METRIC, false))
                .contains("Nothing changed against the earlier sheet of build demonstration.");
    }

    @Test
    void shouldTellLineByLineWhatAThinnerCableChanged() {
        EarlierSheet earlier = earlier(SHEET);
        SizeSheet now = thinCable();
        assertThat(earlier.changes(now, UnitSystem.METRIC))
                .extracting(EarlierSheet.Change::title)
                .contains("Voltage drop of the cable, hottest oil", "Current density of the cable at the fuse's rating")
                .doesNotContain("Velocity in the pressure hose");
        assertThat(SizeTable.of(now, earlier, UnitSystem.METRIC, false))
                .contains("Current density of the cable at the fuse's rating: 5.7 A/mm², ok → 22.9 A/mm², not enough");
    }

    @Test
    void shouldTellOfLinesThatCameAndWent() {
        assertThat(earlier(without("fuse-stall")).changes(SHEET, UnitSystem.METRIC))
                .singleElement()
                .satisfies(change -> assertThat(change.before()).isEqualTo("no such line"));
        assertThat(earlier(SHEET).changes(without("fuse-stall"), UnitSystem.METRIC))
                .singleElement()
                .satisfies(change -> assertThat(change.now()).isEqualTo("no such line"));
    }

    @Test
    void shouldReadBackAnEndlessTimeAsUnchanged() {
        SizeSheet never = Sizer.sheet(EditedBuild.of("    rating: 30 A\n", "    rating: 100 A\n"));
        assertThat(SizeTable.of(never, null, UnitSystem.METRIC, false)).contains("never");
        assertThat(earlier(never).changes(never, UnitSystem.METRIC)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{ | :1:",
                "[] | format: found nothing, expected 1",
                "{\"format\": 2} | format: found 2, expected 1",
                "{\"format\": 1, \"lines\": [{}]} | a line's key: found nothing, expected a text",
                "{\"format\": 1, \"lines\": [{\"key\": \"a\", \"result\": \"x\"}]} | result of 'a': found \"x\", expected a",
                "{\"format\": 1, \"lines\": [{\"key\": \"a\", \"result\": 1, \"title\": \"t\", \"verdict\": \"fine\"}]} |"
                        + " the verdict of 'a': found 'fine', expected ok"
            })
    void shouldRefuseAnEarlierSheetThatIsNoneInOneSentence(String text, String message) throws Exception {
        Path file = folder.resolve("bad.json");
        Files.writeString(file, text, StandardCharsets.UTF_8);
        assertThatThrownBy(() -> SizeJson.read(file))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith(file.toString())
                .hasMessageContaining(message);
    }

    @Test
    void shouldRefuseAnEarlierSheetThatIsNotThere() {
        assertThatThrownBy(() -> SizeJson.read(folder.resolve("none.json")))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("found no such file, expected a size.json of an earlier run");
    }

    @Test
    void shouldShowANameAsTextWhateverItHolds() throws Exception {
        Build build = EditedBuild.of("name: demonstration", "name: \"<b>&'x'</title><script>\"");
        String text = SizeHtml.of(Sizer.sheet(build), null, UnitSystem.METRIC);
        Document page = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(text)));
        assertThat(page.getElementsByTagName("script").getLength()).isZero();
        assertThat(Map.of("h1", page.getElementsByTagName("h1").item(0).getTextContent()))
                .containsEntry("h1", "<b>&'x'</title><script>");
    }
}
