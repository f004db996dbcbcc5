package linehold.simulator.report;

import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import linehold.simulator.build.Build;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.output.WholeFile;
import linehold.simulator.size.SizeLine;
import linehold.simulator.size.SizeSheet;
import linehold.simulator.size.SizeVerdict;
import linehold.simulator.size.Topic;

/** The sizing sheet as one page that needs nothing else: no network, no script, no date. Also well-formed XML. */
public final class SizeHtml {
    private static final List<String> LIMITS = List.of(
            "Limits called common practice have no source, and values called from memory were not read in the standard:"
                    + " check them before you buy or build.",
            "A part's own data sheet goes before every limit here. Insulation, bundling and heat decide what a cable may"
                    + " carry; shock and number of starts decide what a shaft may carry; neither is computed.");

    private final SizeSheet sheet;
    private final EarlierSheet earlier;
    private final UnitSystem units;
    private final Markup html = new Markup();

    private SizeHtml(SizeSheet sheet, EarlierSheet earlier, UnitSystem units) {
        this.sheet = sheet;
        this.earlier = earlier;
        this.units = units;
    }

    /** Writes the page, replacing one that is there. */
    public static void write(SizeSheet sheet, EarlierSheet earlier, UnitSystem units, Path file) {
        WholeFile.writeText(file, of(sheet, earlier, units));
    }

    /**
     * The page's text.
     *
     * @param earlier what to compare with; null for nothing
     */
    public static String of(SizeSheet sheet, EarlierSheet earlier, UnitSystem units) {
        SizeHtml page = new SizeHtml(sheet, earlier, units);
        PageParts.head(page.html, sheet.build().name() + ": sizing sheet");
        page.html.open("body");
        page.html.open("main").line();
        page.titleBlock();
        page.attention();
        page.changes();
        PageParts.cautions(page.html);
        for (Topic topic : Topic.values()) {
            page.topic(topic);
        }
        PageParts.limits(
                page.html,
                Stream.concat(LIMITS.stream(), Cautions.RESULT.stream()).toList());
        page.html.close().close().close();
        return page.html.line().toString();
    }

    private void titleBlock() {
        Build build = sheet.build();
        html.open("header", "class", "titleblock").line();
        html.open("div", "class", "what");
        html.element("p", "Sizing sheet: are the parts large enough?", "class", "label");
        html.element("h1", build.name());
        if (!build.description().isBlank()) {
            html.element("p", build.description());
        }
        html.close().line();
        html.open("div", "class", "answer " + (sheet.enough() ? "held" : "lost"));
        html.element("p", "Verdict", "class", "label");
        html.element("p", sheet.enough() ? "ENOUGH" : "NOT ENOUGH", "class", "verdict");
        html.element(
                "p",
                String.format(
                        Locale.ROOT,
                        "%d lines ok, %d tight, %d not enough.",
                        sheet.count(SizeVerdict.OK),
                        sheet.count(SizeVerdict.TIGHT),
                        sheet.count(SizeVerdict.NOT_ENOUGH)));
        html.close().line();
        html.open("dl");
        entry("For information", Long.toString(sheet.count(SizeVerdict.INFORMATION)));
        entry("Not given", Long.toString(sheet.count(SizeVerdict.NOT_GIVEN)));
        entry(
                "Build file",
                build.sha256().substring(0, Math.min(12, build.sha256().length())));
        html.close().close().line();
    }

    private void entry(String name, String value) {
        html.open("div").element("dt", name).element("dd", value).close();
    }

    /** What wants a decision: everything that is not enough, then everything tight. */
    private void attention() {
        html.open("section", "aria-labelledby", "attention");
        html.element("h2", "Look at these first", "id", "attention");
        List<SizeLine> lines = sheet.lines().stream()
                .filter(line -> line.verdict() == SizeVerdict.NOT_ENOUGH || line.verdict() == SizeVerdict.TIGHT)
                .sorted(Comparator.comparing(SizeLine::verdict).reversed())
                .toList();
        if (lines.isEmpty()) {
            html.element("p", "Every part has its usual reserve.", "class", "lead");
        } else {
            html.open("ul");
            for (SizeLine line : lines) {
                html.open("li");
                html.element("strong", mark(line.verdict()), "class", style(line.verdict()));
                html.text(" ").element("a", line.title(), "href", "#" + line.key());
                html.text(": " + whole(line.resultText(units)) + ", with reserve " + whole(line.limitText(units))
                        + ", at the limit " + whole(line.mustText(units)) + ".");
                html.close();
            }
            html.close();
        }
        html.close().line();
    }

    private void changes() {
        if (earlier == null) {
            return;
        }
        html.open("section", "aria-labelledby", "changes");
        html.element("h2", "Changed against the earlier sheet of " + earlier.build(), "id", "changes");
        List<EarlierSheet.Change> changes = earlier.changes(sheet, units);
        if (changes.isEmpty()) {
            html.element("p", "Nothing changed.").close().line();
            return;
        }
        scroll("changes");
        html.open("table", "class", "sizes", "aria-labelledby", "changes")
                .open("thead")
                .open("tr");
        for (String head : List.of("Line", "Before", "Now")) {
            html.element("th", head, "scope", "col");
        }
        html.close().close().open("tbody").line();
        for (EarlierSheet.Change change : changes) {
            html.open("tr").element("th", change.title(), "scope", "row");
            html.element("td", whole(change.before()), "class", "n");
            html.open("td", "class", "n").element(change.verdictChanged() ? "strong" : "span", whole(change.now()));
            html.close().close().line();
        }
        html.close().close().close().close().line();
    }

    private void topic(Topic topic) {
        String id = "topic-" + topic.name().toLowerCase(Locale.ROOT).replace('_', '-');
        html.open("section", "aria-labelledby", id);
        html.element("h2", topic.title(), "id", id).line();
        scroll(id);
        html.open("table", "class", "sizes", "aria-labelledby", id)
                .open("thead")
                .open("tr");
        for (String head : List.of("What was asked", "Result", "With reserve", "Limit", "Verdict")) {
            html.element("th", head, "scope", "col");
        }
        html.close().close().open("tbody").line();
        sheet.of(topic).forEach(this::line);
        html.close().close().close().close().line();
    }

    private void line(SizeLine line) {
        html.open("tr", "id", line.key()).open("th", "scope", "row");
        html.element("strong", line.title());
        html.element("p", line.formula(), "class", "formula");
        if (!line.inputs().isEmpty()) {
            html.element(
                    "p",
                    line.inputs().stream()
                            .map(input -> whole(input.text(units)))
                            .collect(Collectors.joining("; ")),
                    "class",
                    "quiet");
        }
        if (!line.missing().isEmpty()) {
            html.element("p", "Not given: " + String.join(", ", line.missing()));
        }
        html.element("p", "Source: " + line.source() + ".", "class", "quiet");
        if (!line.note().isEmpty()) {
            html.element("p", line.note());
        }
        html.close();
        html.element("td", whole(line.resultText(units)), "class", "n");
        html.element("td", whole(line.limitText(units)), "class", "n");
        html.element("td", whole(line.mustText(units)), "class", "n");
        html.open("td", "class", line.verdict() == SizeVerdict.NOT_ENOUGH ? "n lostcell" : "n");
        html.element(line.limit() == null ? "span" : "strong", mark(line.verdict()), "class", style(line.verdict()));
        html.close().close().line();
    }

    /** Not broken over two lines, but before a bracket and after a comma. */
    private static String whole(String figure) {
        return figure.replace(' ', '\u00a0').replace("\u00a0(", " (").replace(",\u00a0", ", ");
    }

    /** Signs as well as colours and words: a print may be grey. */
    private static String mark(SizeVerdict verdict) {
        return switch (verdict) {
            case OK -> whole("✓ " + verdict.text());
            case TIGHT -> whole("△ " + verdict.text());
            case NOT_ENOUGH -> whole("✕ " + verdict.text());
            case INFORMATION, NOT_GIVEN -> whole(verdict.text());
        };
    }

    private static String style(SizeVerdict verdict) {
        return switch (verdict) {
            case OK -> "held";
            case TIGHT -> "tight";
            case NOT_ENOUGH -> "lost";
            case INFORMATION, NOT_GIVEN -> "quiet";
        };
    }

    private void scroll(String id) {
        html.open("div", "class", "scroll", "tabindex", "0", "role", "group", "aria-labelledby", id);
    }
}
