package linehold.simulator.report;

import java.nio.file.Path;
import java.util.List;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.output.WholeFile;
import linehold.simulator.window.Setting;
import linehold.simulator.window.Window;
import linehold.simulator.window.Window.Bound;
import linehold.simulator.window.Window.Proof;
import linehold.simulator.window.Window.WindowMap;

/** A switch-over window as one page that needs nothing else; the markup is also well-formed XML. */
public final class WindowHtml {
    private final Window window;
    private final List<String> changes;
    /** What is certain beyond the stops searched; null where it was not asked. */
    private final String certified;

    private final Display display;
    private final WindowTables tables;
    private final Markup html = new Markup();

    private WindowHtml(Window window, UnitSystem units, List<String> changes, String certified) {
        this.window = window;
        this.changes = changes;
        this.certified = certified;
        display = new Display(units);
        tables = new WindowTables(window, display);
    }

    /**
     * Writes the page, replacing one that is there.
     *
     * @param changes lines of {@link Comparison} against a previous window; null without one
     * @param certified what is certain beyond the stops searched, one sentence
     */
    public static void write(Window window, UnitSystem units, List<String> changes, String certified, Path file) {
        WholeFile.writeText(file, of(window, units, changes, certified));
    }

    /** The page's text. */
    public static String of(Window window, UnitSystem units, List<String> changes) {
        return of(window, units, changes, null);
    }

    private static String of(Window window, UnitSystem units, List<String> changes, String certified) {
        WindowHtml page = new WindowHtml(window, units, changes, certified);
        PageParts.head(page.html, window.build().name() + ": switch-over window");
        page.html.open("body").open("main").line();
        page.titleBlock();
        page.answer();
        page.changes();
        page.bounds();
        page.rule();
        page.tolerance();
        PageParts.cautions(page.html);
        page.maps();
        page.tables();
        page.curves();
        PageParts.limits(page.html, Cautions.RESULT);
        page.html.close().close().close();
        return page.html.line().toString();
    }

    private void titleBlock() {
        Build build = window.build();
        html.open("header", "class", "titleblock").line();
        html.open("div", "class", "what");
        html.element("p", "Where must the pumps hand over?", "class", "label");
        html.element("h1", build.name());
        if (!build.description().isBlank()) {
            html.element("p", build.description());
        }
        html.close().line();
        html.open("div", "class", "answer " + (window.exists() ? "held" : "lost"));
        html.element("p", "Window", "class", "label");
        html.element("p", window.exists() ? span() : "NONE", "class", "verdict");
        html.element(
                "p",
                window.exists()
                        ? "on below the first speed, off above the second"
                        : window.noWindow().get(0));
        html.close().line();
        html.open("dl");
        entry("Must keep", display.pressure(build.limits().holdPressurePa()));
        entry("Oil", display.temperature(window.oilC().get(0)) + " to " + display.temperature(hottest()));
        entry(
                "Build file",
                build.sha256().substring(0, Math.min(12, build.sha256().length())));
        html.close().close().line();
    }

    private String span() {
        return display.speedScale().number(window.pair().onRadPerS()) + " / "
                + display.speed(window.pair().offRadPerS());
    }

    private void entry(String name, String value) {
        html.open("div").element("dt", name).element("dd", value).close();
    }

    private double hottest() {
        return window.oilC().get(window.oilC().size() - 1);
    }

    private void answer() {
        section("answer", "The answer");
        if (window.pair() != null) {
            html.element("p", WindowSentences.pair(window, display), "class", "lead");
            for (Proof proof : window.proofs()) {
                html.element("p", WindowSentences.proof(window, proof));
            }
        }
        if (certified != null) {
            html.element("p", certified);
        }
        list(window.noWindow(), "losses");
        list(WindowSentences.notes(window, display), "");
        if (!window.remedies().isEmpty()) {
            html.element("h3", "What would open a window, the best first");
            html.open("ol");
            tables.remedies().forEach(line -> html.element("li", line));
            html.close();
        }
        html.close().line();
    }

    private void changes() {
        if (changes == null) {
            return;
        }
        section("changes", "Against the previous window");
        if (changes.isEmpty()) {
            html.element("p", "Nothing has changed.");
        }
        list(changes, "");
        html.close().line();
    }

    private void bounds() {
        if (window.pair() == null) {
            return;
        }
        section("bounds", "What fixes the two speeds");
        html.element("h3", "Switch-on speed: it must exceed");
        bounds(window.pair().onBounds());
        html.element("h3", "Switch-off speed: it must reach");
        bounds(window.pair().offBounds());
        html.close().line();
    }

    private void bounds(List<Bound> bounds) {
        html.open("ul");
        for (Bound bound : bounds) {
            html.open("li")
                    .element("strong", display.speed(bound.radPerS()) + ", " + bound.name() + ".")
                    .text(" " + bound.sentence())
                    .close();
        }
        html.close();
    }

    private void rule() {
        section("rule", "The 500 rpm rule of thumb");
        html.element("p", "Common practice, without a source; here with the switch-on speed alone.", "class", "quiet");
        list(tables.rule(), "");
        html.close().line();
    }

    private void tolerance() {
        if (window.tolerance() == null) {
            return;
        }
        ToleranceTables tolerance = new ToleranceTables(window.tolerance(), display);
        section("tolerance", "From car to car");
        list(tolerance.sentences(), "");
        table(tolerance.ranking(Integer.MAX_VALUE));
        if (!tolerance.mattersNowhere().isEmpty()) {
            html.element("p", tolerance.mattersNowhere(), "class", "quiet");
        }
        html.close().line();
    }

    private void maps() {
        section("maps", "Window maps");
        html.element(
                "p",
                "Each number is the lowest line pressure of a stop, the worst over where the pickup's teeth stand, run closed"
                        + " loop with the controller; the aids are off. A cell that is lost says so.");
        for (int i = 0; i < window.maps().size(); i++) {
            WindowMap map = window.maps().get(i);
            html.open("figure")
                    .open(
                            "div",
                            "class",
                            "scroll",
                            "tabindex",
                            "0",
                            "role",
                            "group",
                            "aria-label",
                            "Map at " + display.temperature(map.oilC()));
            WindowMapFigure.write(window, display, map, html, "map-" + i);
            html.close().close().line();
        }
        html.close().line();
    }

    private void tables() {
        section("numbers", "The numbers");
        table(tables.limits());
        table(tables.lead());
        table(tables.leadSagged());
        for (int i = window.oilC().size() - 1; i >= 0; i--) {
            table(tables.aids(window.oilC().get(i)));
        }
        if (window.pair() != null) {
            table(tables.prices(Setting.ALONE));
            table(tables.prices(Setting.FITTED));
        }
        html.close().line();
    }

    private void curves() {
        section("curves", "Carry speed over oil temperature");
        html.open("figure")
                .open("div", "class", "scroll", "tabindex", "0", "role", "group", "aria-label", "Carry speed");
        CarryFigure.write(window, display, html);
        html.close().close();
        table(tables.carry());
        html.close().line();
    }

    private void table(NumberTable table) {
        html.element("h3", table.title());
        if (!table.note().isEmpty()) {
            html.element("p", table.note(), "class", "quiet");
        }
        table.write(html);
    }

    private void section(String id, String title) {
        html.open("section", "aria-labelledby", id);
        html.element("h2", title, "id", id).line();
    }

    private void list(List<String> lines, String cssClass) {
        if (lines.isEmpty()) {
            return;
        }
        if (cssClass.isEmpty()) {
            html.open("ul");
        } else {
            html.open("ul", "class", cssClass);
        }
        lines.forEach(line -> html.element("li", line));
        html.close();
    }
}
