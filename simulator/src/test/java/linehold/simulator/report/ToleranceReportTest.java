package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.util.List;
import java.util.Map;
import javax.xml.parsers.DocumentBuilderFactory;
import linehold.simulator.build.Builds;
import linehold.simulator.build.Spread;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.prove.Loss.Criterion;
import linehold.simulator.prove.Reserve;
import linehold.simulator.window.Tolerance;
import linehold.simulator.window.Tolerance.Answer;
import linehold.simulator.window.Tolerance.Corner;
import linehold.simulator.window.Tolerance.End;
import linehold.simulator.window.Tolerance.Share;
import linehold.simulator.window.Tolerance.Weight;
import linehold.simulator.window.Watch;
import linehold.simulator.window.Window;
import linehold.simulator.window.WindowFinder;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.xml.sax.InputSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** How terminal, page and JSON show what the spreads do to a window. */
class ToleranceReportTest {
    private static Window plain;
    private static Window window;

    @BeforeAll
    static void find() {
        plain = new WindowFinder(Builds.demonstration(), List.of(120.0), Watch.NOBODY).find();
        window = plain.with(tolerance());
    }

    private static Tolerance tolerance() {
        List<Spread> spreads = Builds.demonstration().spreads().all().subList(0, 3);
        Reserve nominal = new Reserve(1.25, 2, Double.POSITIVE_INFINITY, null);
        Reserve worst = new Reserve(0.7, 1.5, 3, Criterion.PRESSURE_LOST);
        List<Weight> ranking = List.of(
                new Weight(spreads.get(2), 0.3, -0.3, 0.01),
                new Weight(spreads.get(0), 0.1, 0.02, 0.1),
                new Weight(spreads.get(1), 0, 0, 0));
        Answer answer = new Answer(
                "hill-hold",
                120,
                nominal,
                new Corner(worst, List.of(new End(spreads.get(2), true), new End(spreads.get(0), false))),
                95,
                new Share(0.95, 0.8882, 0.9785),
                0.91,
                Map.of(Criterion.DRIVE_REFUSED, 1, Criterion.PRESSURE_LOST, 4),
                ranking);
        return new Tolerance(100, 7, 0.95, spreads, 95, new Share(0.95, 0.8882, 0.9785), List.of(answer));
    }

    @Test
    void shouldSayShareIntervalWorstCarAndRankingInTheTerminal() {
        String text = WindowTable.of(window, UnitSystem.METRIC, null);
        String flowing = text.replaceAll("\\s+", " ");

        assertThat(flowing)
                .contains("From car to car: 95 of 100 cars hold, 95.0 % (between 88.8 % and 97.9 % with 95 %"
                        + " confidence). They are drawn evenly within the 3 spreads of the build file (seed 7)")
                .contains("Hill-hold at 120 °C: 95 of 100 cars hold (lost: line pressure 4, drive permission 1)")
                .contains(
                        "Reserve of the nominal car 1.25, least of the cars 0.91. The worst car found, 2 values at the"
                                + " end that hurts, is lost by line pressure, with a reserve of 0.70.")
                .contains("oil.density-15 −0.300 high oil.viscosity-40 ±0.100 low")
                .doesNotContain("oil.viscosity-100");
        assertThat(text.lines()).allMatch(line -> line.length() <= 100);
    }

    @Test
    void shouldShowTheSameOnAWellFormedPage() throws Exception {
        String html = WindowHtml.of(window, UnitSystem.US, null);

        DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(new InputSource(new StringReader(html)));
        assertThat(html)
                .contains("<h2 id=\"tolerance\">From car to car</h2>", "Hill-hold at 248 °F: 95 of 100 cars hold")
                .contains("−0.300 high", "Less than 0.0005 everywhere: oil.viscosity-100.");
    }

    @Test
    void shouldWriteItIntoTheJson() {
        JsonNode json = JsonMapper.shared().readTree(WindowJson.toBytes(window)).get("tolerance");

        assertThat(json.get("cars").asInt()).isEqualTo(100);
        assertThat(json.get("held").asInt()).isEqualTo(95);
        assertThat(json.get("spreads")).hasSize(3);
        JsonNode answer = json.get("answers").get(0);
        assertThat(answer.get("drive").asString()).isEqualTo("hill-hold");
        assertThat(answer.get("lost").toString()).isEqualTo("{\"pressure_lost\":4,\"drive_refused\":1}");
        assertThat(answer.get("nominal").get("engagement").isNull()).isTrue();
        assertThat(answer.get("worst_car").get("lost").asString()).isEqualTo("pressure_lost");
        assertThat(answer.get("ranking").get(0).get("worst_at").asString()).isEqualTo("high");
        assertThat(answer.get("ranking").get(2).get("worst_at").isNull()).isTrue();
    }

    @Test
    void shouldSayNothingWhereItWasNotAsked() {
        assertThat(WindowTable.of(plain, UnitSystem.METRIC, null)).doesNotContain("From car to car");
        assertThat(WindowHtml.of(plain, UnitSystem.METRIC, null)).doesNotContain("From car to car");
        assertThat(JsonMapper.shared()
                        .readTree(WindowJson.toBytes(plain))
                        .get("tolerance")
                        .isNull())
                .isTrue();
    }
}
