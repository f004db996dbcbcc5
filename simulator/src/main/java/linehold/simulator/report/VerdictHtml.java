package linehold.simulator.report;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.output.WholeFile;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.prove.Verdict;

/**
 * The verdict as one page that needs nothing else: no network, no script, no date. The markup is also well-formed XML.
 * Plots are drawn once, small enough that sixty runs stay below 3 MB.
 */
public final class VerdictHtml {
    private final Verdict verdict;
    private final Grid grid;
    private final Display display;
    private final Markup html = new Markup();

    private VerdictHtml(Verdict verdict, UnitSystem units) {
        this.verdict = verdict;
        this.grid = new Grid(verdict);
        this.display = new Display(units);
    }

    /** Writes the page, replacing one that is there. */
    public static void write(Verdict verdict, UnitSystem units, Path file) {
        WholeFile.writeText(file, of(verdict, units));
    }

    /** The page's text. */
    public static String of(Verdict verdict, UnitSystem units) {
        VerdictHtml page = new VerdictHtml(verdict, units);
        PageParts.head(page.html, verdict.build().name() + ": " + page.word());
        page.html.open("body");
        page.html.open("main").line();
        page.titleBlock();
        page.weakest();
        page.matrix();
        PageParts.cautions(page.html);
        page.facts();
        page.drives();
        PageParts.limits(page.html, Cautions.RESULT);
        page.html.close().close().close();
        return page.html.line().toString();
    }

    /** The title block of a drawing: what it is, of which build, with what answer. */
    private void titleBlock() {
        Build build = verdict.build();
        html.open("header", "class", "titleblock").line();
        html.open("div", "class", "what");
        html.element("p", "Does the line hold?", "class", "label");
        html.element("h1", build.name());
        if (build.description() != null && !build.description().isBlank()) {
            html.element("p", build.description());
        }
        html.close().line();
        html.open("div", "class", "answer " + (verdict.held() ? "held" : "lost"));
        html.element("p", "Verdict", "class", "label");
        html.element("p", word().toUpperCase(Locale.ROOT), "class", "verdict");
        html.element("p", Sentences.whole(Sentences.tally(verdict)));
        html.close().line();
        html.open("dl");
        entry("Must keep", display.pressure(build.limits().holdPressurePa()));
        entry("Safety factor", Numbers.fixed(build.limits().safetyFactor(), 2));
        entry(
                "Pump on / off",
                display.speedScale().number(build.calibration().get(Key.SWITCH_ON_SPEED)) + " / "
                        + display.speed(build.calibration().get(Key.SWITCH_OFF_SPEED)));
        entry("Build file", shortSha());
        html.close().close().line();
    }

    private void entry(String name, String value) {
        html.open("div").element("dt", name).element("dd", value).close();
    }

    private void weakest() {
        html.open("section", "aria-labelledby", "weakest");
        html.element("h2", "Weakest moment", "id", "weakest");
        html.element("p", Sentences.whole(verdict.weakest()), "class", "lead");
        html.close().line();
    }

    private void matrix() {
        html.open("section", "aria-labelledby", "matrix");
        html.element("h2", "Lowest pressure, element engaged and settled", "id", "matrix")
                .line();
        String unit = display.pressureScale().label();
        html.element("p", "In " + unit + ", by drive and oil temperature. A run that was lost says so.")
                .line();
        html.open("div", "class", "scroll", "tabindex", "0", "role", "group", "aria-labelledby", "matrix");
        html.open("table", "class", "matrix", "aria-labelledby", "matrix");
        html.open("thead").open("tr").element("th", "Drive", "scope", "col");
        for (double oilC : grid.temperaturesC()) {
            html.element("th", display.temperature(oilC), "scope", "col");
        }
        html.close().close().open("tbody").line();
        List<String> drives = grid.drives();
        for (int i = 0; i < drives.size(); i++) {
            html.open("tr").open("th", "scope", "row");
            html.element("a", drives.get(i), "href", "#drive-" + (i + 1));
            if (grid.runs(drives.get(i)).stream().anyMatch(run -> !run.held())) {
                // On a narrow screen the lost column may be out of sight.
                html.text(" ").element("strong", "✕ lost", "class", "lost");
            }
            html.close();
            for (double oilC : grid.temperaturesC()) {
                cell(grid.run(drives.get(i), oilC));
            }
            html.close().line();
        }
        html.close().close().close().close().line();
    }

    private void cell(RunVerdict run) {
        if (run == null) {
            html.element("td", "–", "class", "n");
            return;
        }
        double lowest = run.lowPoint().pressurePa();
        String number = Double.isFinite(lowest) ? display.pressureScale().number(lowest) : "none engaged";
        html.open("td", "class", run.held() ? "n" : "n lostcell");
        if (!run.held()) {
            html.element("strong", "✕ lost").text(" ");
        }
        html.text(number).close();
    }

    private void facts() {
        html.open("section", "aria-labelledby", "facts");
        html.element("h2", "The build in numbers", "id", "facts").line();
        html.open("div", "class", "scroll", "tabindex", "0", "role", "group", "aria-labelledby", "facts");
        html.open("table", "class", "facts", "aria-labelledby", "facts")
                .open("tbody")
                .line();
        for (BuildFacts.Fact fact : BuildFacts.of(verdict.build(), display)) {
            html.open("tr").element("th", fact.name(), "scope", "row").element("td", fact.value());
            html.close().line();
        }
        html.open("tr").element("th", "SHA-256 of the build file", "scope", "row");
        html.element("td", verdict.build().sha256(), "class", "sha").close();
        html.close().close().close().close().line();
    }

    private void drives() {
        DriveSection section = new DriveSection(
                display,
                verdict.build().limits().holdPressurePa(),
                verdict.build().limits().safetyFactor());
        List<String> drives = grid.drives();
        for (int i = 0; i < drives.size(); i++) {
            section.write(html, "drive-" + (i + 1), grid.runs(drives.get(i)));
        }
    }

    private String word() {
        return verdict.held() ? "held" : "lost";
    }

    private String shortSha() {
        String sha = verdict.build().sha256();
        return sha.length() > 12 ? sha.substring(0, 12) : sha;
    }
}
