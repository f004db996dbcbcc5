package linehold.simulator.report;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import linehold.simulator.build.Display;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.Outcome;
import linehold.simulator.faults.Phase;

/** Every fault in every phase as one table of signs, one sign an oil temperature. */
final class FaultMatrix {
    private final FaultsFacts facts;
    private final Display display;
    private final Markup html;

    FaultMatrix(FaultsFacts facts, Display display, Markup html) {
        this.facts = facts;
        this.display = display;
        this.html = html;
    }

    void write() {
        html.open("section", "class", "sheet", "aria-labelledby", "matrix");
        html.element("h2", "Every fault in every phase", "id", "matrix").line();
        html.element("p", "Each cell has one sign for each oil temperature: " + temperatures() + ".");
        legend();
        html.open("div", "class", "scroll", "tabindex", "0", "role", "group", "aria-labelledby", "matrix");
        html.open("table", "class", "faults", "aria-labelledby", "matrix");
        html.open("thead").open("tr").element("th", "Fault", "scope", "col");
        for (Phase phase : facts.phases()) {
            html.open("th", "scope", "col").element("span", phase.title()).close();
        }
        html.close().close().open("tbody").line();
        FaultKind.Part part = null;
        for (Map.Entry<FaultKind, List<FaultRun>> fault : facts.byFault().entrySet()) {
            if (fault.getKey().part() != part) {
                part = fault.getKey().part();
                String columns = String.valueOf(facts.phases().size() + 1);
                html.open("tr").element("th", part.title(), "scope", "rowgroup", "colspan", columns, "class", "part");
                html.close().line();
            }
            row(fault.getKey(), fault.getValue());
        }
        html.close().close().close().close().line();
    }

    private String temperatures() {
        return facts.temperaturesC().stream().map(display::temperature).collect(Collectors.joining(", then "));
    }

    private void legend() {
        html.open("ul", "class", "legend");
        for (Outcome outcome : Outcome.values()) {
            html.open("li")
                    .element("span", FaultWords.sign(outcome), "class", style(outcome))
                    .text(" " + outcome.title())
                    .close();
        }
        html.open("li")
                .element("span", FaultWords.OVERPRESSURE, "class", "sign harm")
                .text(" overpressure, no slip")
                .close();
        html.element("li", "( ) the build does not claim to cover it");
        html.close().line();
    }

    private void row(FaultKind kind, List<FaultRun> runs) {
        html.open("tr").element("th", FaultWords.name(kind), "scope", "row");
        for (Phase phase : facts.phases()) {
            html.open("td");
            for (double oilC : facts.temperaturesC()) {
                runs.stream()
                        .filter(run -> run.phase() == phase && run.oilC() == oilC)
                        .findFirst()
                        .ifPresentOrElse(this::sign, () -> html.element("span", "–", "class", "sign"));
            }
            html.close();
        }
        html.close().line();
    }

    private void sign(FaultRun run) {
        boolean over = facts.isOverpressure(run);
        boolean harm = over || !run.outcome().covered();
        String sign = over && run.outcome().covered() ? FaultWords.OVERPRESSURE : FaultWords.sign(run.outcome());
        // A sign is read out by its title.
        html.element(
                "span",
                harm && !run.claimed() ? "(" + sign + ")" : sign,
                "class",
                harm ? "sign harm" : style(run.outcome()),
                "role",
                "img",
                "title",
                display.temperature(run.oilC()) + ": " + run.outcome().title() + (over ? ", overpressure" : "")
                        + (run.claimed() ? "" : ", not claimed"));
    }

    private static String style(Outcome outcome) {
        return outcome == Outcome.HARMLESS ? "sign" : outcome.covered() ? "sign seen" : "sign harm";
    }
}
