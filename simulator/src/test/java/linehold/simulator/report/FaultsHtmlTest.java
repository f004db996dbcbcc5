package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import linehold.simulator.build.Builds;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.Outcome;
import linehold.simulator.faults.Phase;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

class FaultsHtmlTest {
    private static final Campaign COVERED = FaultsFixtures.small(Outcome.SLIP_BEFORE_NOTICE, false);
    private static final Campaign NOT_COVERED = FaultsFixtures.small(Outcome.SLIP_BEFORE_NOTICE, true);

    private static Document parsed(Campaign campaign, UnitSystem units) throws Exception {
        return DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(FaultsHtml.of(campaign, units))));
    }

    private static String text(Campaign campaign) throws Exception {
        return parsed(campaign, UnitSystem.METRIC).getDocumentElement().getTextContent();
    }

    @Test
    void shouldBeWellFormedForEveryKindOfCampaign() throws Exception {
        for (UnitSystem units : UnitSystem.values()) {
            for (Campaign campaign : List.of(FaultsFixtures.large(), COVERED, FaultsFixtures.empty())) {
                assertThat(parsed(campaign, units).getDocumentElement().getTagName())
                        .isEqualTo("html");
            }
        }
    }

    @Test
    void shouldNeedNothingFromOutsideAndStaySmall() {
        String page = FaultsHtml.of(FaultsFixtures.large(), UnitSystem.METRIC);
        assertThat(page).doesNotContain("http:", "https:", "<script", "<link", "<img", "@import", "url(", "src=");
        assertThat(page.getBytes(StandardCharsets.UTF_8).length).isLessThan(2_000_000);
    }

    @Test
    void shouldBeTheSamePageInAnyLocale() {
        String first = FaultsHtml.of(FaultsFixtures.large(), UnitSystem.US);
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
            assertThat(FaultsHtml.of(FaultsFixtures.large(), UnitSystem.US)).isEqualTo(first);
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void shouldShowTextAsTextWhateverItHolds() throws Exception {
        assertThat(FaultsHtml.of(COVERED, UnitSystem.METRIC)).contains("the line &lt;stood&gt; &amp; fell");
        assertThat(text(COVERED)).contains(FaultsFixtures.EFFECT);
    }

    @Test
    void shouldNeverShowAValueThatIsNone() {
        for (Campaign campaign : List.of(FaultsFixtures.large(), COVERED, FaultsFixtures.empty())) {
            assertThat(FaultsHtml.of(campaign, UnitSystem.METRIC)).doesNotContain("NaN", "Infinity", "∞");
        }
    }

    @Test
    void shouldHeadEveryTableAndReachEveryBoxByKey() throws Exception {
        Document page = parsed(FaultsFixtures.large(), UnitSystem.METRIC);
        Set<String> ids = new HashSet<>();
        for (Element element : all(page, "*")) {
            if (element.hasAttribute("id")) {
                assertThat(ids.add(element.getAttribute("id")))
                        .as(element.getAttribute("id"))
                        .isTrue();
            }
        }
        assertThat(all(page, "th")).allMatch(th -> th.hasAttribute("scope"));
        assertThat(all(page, "table")).isNotEmpty().allSatisfy(table -> {
            assertThat(ids).contains(table.getAttribute("aria-labelledby"));
            assertThat(((Element) table.getParentNode()).getAttribute("tabindex"))
                    .isEqualTo("0");
            assertThat(table.getElementsByTagName("thead").getLength()).isEqualTo(1);
        });
    }

    @Test
    void shouldShowOneSignARunWithWordsForIt() throws Exception {
        List<Element> signs = all(parsed(FaultsFixtures.large(), UnitSystem.METRIC), "span").stream()
                .filter(span -> "img".equals(span.getAttribute("role")))
                .toList();
        assertThat(signs).hasSize(FaultKind.values().length * Phase.values().length * 2);
        assertThat(signs).allSatisfy(sign -> {
            String outcome = sign.getAttribute("title");
            String expected = outcome.contains("never noticed")
                    ? "■"
                    : outcome.contains("slip before")
                            ? "✕"
                            : outcome.contains("slip despite")
                                    ? "▲"
                                    : outcome.contains("overpressure") ? "↑" : outcome.contains("in time") ? "✓" : "·";
            assertThat(sign.getTextContent()).contains(expected);
        });
        assertThat(signs)
                .filteredOn(sign -> sign.getTextContent().startsWith("("))
                .isNotEmpty()
                .allMatch(sign -> sign.getAttribute("title").endsWith(", not claimed"));
    }

    @Test
    void shouldCountTheClaimedRunsThatOnlyDriveTold() throws Exception {
        assertThat(text(FaultsFixtures.silent()))
                .contains("of these without a code")
                .contains("1 of them lost hold pressure");
        assertThat(text(COVERED)).doesNotContain("of these without a code");
    }

    @Test
    void shouldTellEachFaultWithDetectionReactionAndRisk() throws Exception {
        assertThat(text(COVERED))
                .contains("COVERED", "1 run it does not claim came to harm")
                .contains("✕ pump seized: slip before notice, not claimed")
                .contains("P0868; 40 ms after it.")
                .contains("Drive: reduced. Pump: electric.")
                .contains("The car goes on with less torque.")
                .contains("Nobody knows of it: a second fault may come on top.")
                .contains("The build does not claim to cover it.")
                .contains("Transmission Fluid Pressure Low");
        assertThat(text(NOT_COVERED)).contains("NOT COVERED", "slip before notice, claimed by the build");
        assertThat(text(FaultsFixtures.empty())).contains("NOTHING TRIED", "Nothing came to harm");
    }

    @Test
    void shouldFoldRunsThatCameToTheSameIntoOneRow() throws Exception {
        List<FaultRun> runs = new ArrayList<>();
        for (Phase phase : Phase.values()) {
            for (double oilC : new double[] {-20, 120}) {
                boolean noticed = phase == Phase.CREEPING || phase == Phase.CRUISING && oilC == 120;
                Outcome outcome = noticed ? Outcome.NOTICED_IN_TIME : Outcome.HARMLESS;
                runs.add(FaultsFixtures.run(FaultKind.AIR_IN_OIL, null, phase, oilC, outcome, true, 9e5));
            }
        }
        Document page = parsed(FaultsFixtures.campaign(Builds.demonstration(), runs), UnitSystem.METRIC);
        List<String> phases = all(page, "td").stream()
                .map(Element::getTextContent)
                .filter(cell -> cell.endsWith(" runs"))
                .toList();
        assertThat(phases)
                .containsExactly(
                        "Creeping. At 120 °C: cruising. 3 runs",
                        "Every phase but creeping; cruising at 120 °C. 23 runs");
    }

    @Test
    void shouldTellOverpressureWhateverTheOutcome() throws Exception {
        FaultRun run = FaultsFixtures.run(
                FaultKind.REGULATOR_STUCK_SHUT, null, Phase.CRUISING, 120, Outcome.HARMLESS, true, 2.88904e8);
        assertThat(text(FaultsFixtures.campaign(Builds.demonstration(), List.of(run))))
                .contains("↑ regulator stuck shut: overpressure", "up to 2889 bar", "may burst, with hot oil");
        assertThat(text(COVERED)).doesNotContain("may burst");
    }

    @Test
    void shouldSayWhatKeyOnFindsAndWhatTheCoverageIs() throws Exception {
        assertThat(text(COVERED))
                .contains("key-on finds 2 before", "✕ not at every oil temperature", "✕ not found")
                .contains("6 of 7 (85\u00a0%)", "181 of 182 (99\u00a0%)", "a table (from memory)")
                .contains("This is evidence for a builder, not a certification.");
    }

    @Test
    void shouldCautionWhoeverWorksOnTheCar() throws Exception {
        assertThat(text(COVERED))
                .contains(
                        "Chock the wheels",
                        "park brake as well as the park lock",
                        "helper on the brake",
                        "Never work under a car that is held by hydraulics",
                        "hot and under pressure",
                        "Fuse the electric pump",
                        "no certified safety system",
                        "Local codes, vehicle approval rules and licensed practice prevail");
    }

    @Test
    void shouldSpeakUsUnits() {
        // 5.2 bar are 75.4 psi (1 psi = 6894.757 Pa, NIST SP 811 appendix B.8)
        assertThat(FaultsHtml.of(COVERED, UnitSystem.US))
                .contains("75.4", "248 °F")
                .doesNotContain("120 °C", " bar<");
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
