package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.prove.Verdict;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXParseException;
import org.xml.sax.helpers.DefaultHandler;

class VerdictHtmlTest {
    private static Document parsed(Verdict verdict, UnitSystem units) throws Exception {
        DocumentBuilder builder = DocumentBuilderFactory.newInstance().newDocumentBuilder();
        builder.setErrorHandler(new DefaultHandler() {
            @Override
            public void fatalError(SAXParseException e) throws SAXParseException {
                throw e;
            }
        });
        return builder.parse(new InputSource(new StringReader(VerdictHtml.of(verdict, units))));
    }

    @Test
    void shouldBeWellFormedForEveryKindOfVerdict() throws Exception {
        for (UnitSystem units : UnitSystem.values()) {
            for (Verdict verdict : List.of(Fixtures.large(), Fixtures.held(), Fixtures.empty())) {
                assertThat(parsed(verdict, units).getDocumentElement().getTagName())
                        .isEqualTo("html");
            }
        }
    }

    @Test
    void shouldNeedNothingFromOutside() {
        assertThat(VerdictHtml.of(Fixtures.large(), UnitSystem.METRIC))
                .doesNotContain("http:", "https:", "<script", "<link", "<img", "@import", "url(", "src=");
    }

    @Test
    void shouldStayBelowThreeMegabytesForSixtyRuns() {
        byte[] page = VerdictHtml.of(Fixtures.large(), UnitSystem.METRIC).getBytes(StandardCharsets.UTF_8);
        assertThat(page.length).isLessThan(3_000_000);
    }

    @Test
    void shouldBeTheSamePageInAnyLocale() {
        String first = VerdictHtml.of(Fixtures.large(), UnitSystem.US);
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
            assertThat(VerdictHtml.of(Fixtures.large(), UnitSystem.US)).isEqualTo(first);
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void shouldShowANameAsTextWhateverItHolds() throws Exception {
        String name = "<b>&\" onload='x' ]]> </title><script>";
        Document page = parsed(Fixtures.named(name), UnitSystem.METRIC);

        assertThat(page.getElementsByTagName("b").getLength()).isZero();
        assertThat(page.getElementsByTagName("script").getLength()).isZero();
        assertThat(page.getElementsByTagName("h1").item(0).getTextContent()).isEqualTo("build " + name);
        assertThat(texts(page, "h2")).anyMatch(text -> text.startsWith(name));
    }

    @Test
    void shouldReplaceCharactersThatAPageCannotHold() throws Exception {
        assertThat(texts(parsed(Fixtures.named("a\u0000\u001b\uD800z"), UnitSystem.METRIC), "h1"))
                .containsExactly("build a���z");
    }

    @Test
    void shouldNeverShowAValueThatIsNone() {
        assertThat(VerdictHtml.of(Fixtures.empty(), UnitSystem.METRIC)).doesNotContain("NaN", "Infinity", "∞");
    }

    @Test
    void shouldNameEveryDrawingAndHeadEveryTable() throws Exception {
        Document page = parsed(Fixtures.large(), UnitSystem.METRIC);
        Set<String> ids = new HashSet<>();
        for (Element element : all(page, "*")) {
            if (element.hasAttribute("id")) {
                assertThat(ids.add(element.getAttribute("id")))
                        .as(element.getAttribute("id"))
                        .isTrue();
            }
        }
        List<Element> drawings = all(page, "svg");
        // Twelve drives: a speed plot and five pressure plots each, and a close-up.
        assertThat(drawings).hasSize(12 * 7);
        for (Element svg : drawings) {
            assertThat(svg.getAttribute("role")).isEqualTo("img");
            assertThat(svg.getElementsByTagName("title").getLength()).isEqualTo(1);
            assertThat(svg.getElementsByTagName("desc").getLength()).isEqualTo(1);
            assertThat(ids).contains(svg.getAttribute("aria-labelledby").split(" "));
        }
        assertThat(all(page, "th")).allMatch(th -> th.hasAttribute("scope"));
        for (Element link : all(page, "a")) {
            assertThat(ids).contains(link.getAttribute("href").substring(1));
        }
    }

    @Test
    void shouldSayLostInWordsNotByColourAlone() throws Exception {
        Document page = parsed(Fixtures.large(), UnitSystem.METRIC);
        List<Element> lost = all(page, "td").stream()
                .filter(cell -> cell.getAttribute("class").contains("lostcell"))
                .filter(cell -> cell.getElementsByTagName("strong").getLength() > 0)
                .toList();
        assertThat(lost).hasSize(4).allMatch(cell -> cell.getTextContent().startsWith("✕ lost"));
        assertThat(page.getDocumentElement().getTextContent())
                .contains("LOST", "4 of 60 runs lost", "Lost at 120 °C: line pressure fell below the hold pressure");
    }

    @Test
    void shouldTellFiguresRepairsAndWarnings() throws Exception {
        String text =
                parsed(Fixtures.large(), UnitSystem.METRIC).getDocumentElement().getTextContent();
        assertThat(text)
                .contains(
                        "12 rows with a repeated time stamp",
                        "A gap in the log ended the evidence at 271.4 s",
                        "-20 °C: oil viscosity is extrapolated below the pour point",
                        "Relay operations (per hour)",
                        "LH-P1, LH-S2",
                        "9.10, first",
                        "Electric pump on below500 rpm",
                        "Hand-over above600 rpm, 4.50 bar for 0.30 s");
    }

    /** 4 bar are 58.0 psi, 24 cm³ are 1.46 in³ (NIST SP 811 appendix B.8). */
    @Test
    void shouldSpeakUsUnitsThroughout() {
        String page = VerdictHtml.of(Fixtures.large(), UnitSystem.US);
        assertThat(page).contains("58.0 psi", "1.46 in³", "248 °F");
        assertThat(page.substring(page.indexOf("<h2"))).doesNotContain(">bar<", " bar<", "cm³");
    }

    @Test
    void shouldCautionWhoeverWorksOnTheCar() throws Exception {
        String text =
                parsed(Fixtures.held(), UnitSystem.METRIC).getDocumentElement().getTextContent();
        assertThat(text)
                .contains(
                        "Chock the wheels",
                        "park brake as well as the park lock",
                        "helper on the brake",
                        "Never work under a car that is held by hydraulics",
                        "hot and under pressure",
                        "Fuse the electric pump",
                        "result of a model",
                        "no certified safety system",
                        "Local codes, vehicle approval rules and licensed practice prevail");
    }

    private static List<String> texts(Document page, String tag) {
        return all(page, tag).stream().map(Element::getTextContent).toList();
    }

    private static List<Element> all(Document page, String tag) {
        NodeList nodes = page.getElementsByTagName(tag);
        List<Element> elements = new ArrayList<>();
        for (int i = 0; i < nodes.getLength(); i++) {
            elements.add((Element) nodes.item(i));
        }
        return elements;
    }
}
