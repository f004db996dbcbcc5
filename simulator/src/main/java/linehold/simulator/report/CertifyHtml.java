package linehold.simulator.report;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.certify.Certification;
import linehold.simulator.certify.Report;
import linehold.simulator.certify.SliceProof;
import linehold.simulator.output.WholeFile;

/** A certification as one page that needs nothing else: no network, no script, no date. Also well-formed XML. */
public final class CertifyHtml {
    private final Report report;
    private final Display display;
    private final CertifyWords words;
    private final Markup html = new Markup();

    private CertifyHtml(Report report, UnitSystem units) {
        this.report = report;
        display = new Display(units);
        words = new CertifyWords(report, display);
    }

    /** Writes the page, replacing one that is there. */
    public static void write(Report report, UnitSystem units, Path file) {
        WholeFile.writeText(file, of(report, units));
    }

    /** The page's text. */
    public static String of(Report report, UnitSystem units) {
        CertifyHtml page = new CertifyHtml(report, units);
        PageParts.head(page.html, report.main().build().name() + ": certificate");
        page.html.open("body");
        page.html.open("main").line();
        page.titleBlock();
        page.notCovered();
        PageParts.cautions(page.html);
        page.worst();
        page.slices();
        PageParts.limits(page.html, Cautions.RESULT);
        page.html.close().close().close();
        return page.html.line().toString();
    }

    private void titleBlock() {
        Certification c = report.main();
        Build build = c.build();
        html.open("header", "class", "titleblock").line();
        html.open("div", "class", "what");
        html.element("p", "Certificate: what is guaranteed in every drive?", "class", "label");
        html.element("h1", build.name());
        html.element("p", words.question());
        html.close().line();
        html.open("div", "class", "answer " + (c.certified() ? "held" : "lost"));
        html.element("p", "Verdict", "class", "label");
        html.element("p", c.certified() ? "CERTIFIED" : "REFUSED", "class", "verdict");
        html.element("p", words.verdict());
        html.close().line();
        html.open("dl");
        entry("Fall asked", display.acceleration(c.claim().fallRadPerS2()));
        entry("Certain up to", display.acceleration(c.largestFallRadPerS2()));
        entry("Lowest switch-on speed for it", display.speed(c.lowestOnRadPerS()));
        entry(
                "Build file",
                build.sha256().substring(0, Math.min(12, build.sha256().length())));
        html.close().close().line();
    }

    private void entry(String name, String value) {
        html.open("div").element("dt", name).element("dd", value).close();
    }

    private void notCovered() {
        html.open("section", "class", "caution", "aria-labelledby", "notcovered");
        html.element("h2", "What the certificate does not cover", "id", "notcovered");
        html.open("ul");
        for (String sentence : Report.NOT_COVERED) {
            html.element("li", sentence);
        }
        html.close().close().line();
    }

    private void worst() {
        html.open("section", "aria-labelledby", "worst");
        html.element("h2", "The bound under the worst drive found", "id", "worst");
        for (String line :
                Stream.concat(Stream.of(words.worst()), words.limits().stream()).toList()) {
            html.element("p", line);
        }
        if (report.worst() != null) {
            CertifyFigure.write(report, display, html);
        }
        html.close().line();
    }

    private void slices() {
        html.open("section", "aria-labelledby", "slices");
        html.element("h2", "Guaranteed lowest line pressure by oil temperature", "id", "slices");
        html.open("div", "class", "scroll", "role", "region", "tabindex", "0", "aria-labelledby", "slices");
        html.open("table", "class", "sizes", "aria-labelledby", "slices")
                .open("thead")
                .open("tr");
        for (String head : List.of(
                "Oil",
                "As written",
                "Any car within the spreads",
                "Found by search",
                "Motor torque in first, top, reverse",
                "Set by")) {
            html.element("th", head, "scope", "col");
        }
        html.close().close().open("tbody").line();
        for (int i = 0; i < report.main().slices().size(); i++) {
            row(i);
        }
        html.close().close().close();
        html.element(
                "p",
                "Motor torque: what the guaranteed piston pressure carries for certain, without the safety factor, with the"
                        + " friction as written.",
                "class",
                "quiet");
        html.close().line();
    }

    private void row(int i) {
        SliceProof slice = report.main().slices().get(i);
        Build build = report.main().build();
        html.open("tr").element("th", words.slice(slice), "scope", "row");
        cell(report.asWritten().slices().get(i));
        if (report.withSpreads() == null) {
            html.element("td", "–", "class", "n");
        } else {
            cell(report.withSpreads().slices().get(i));
        }
        String found = report.found().stream()
                .filter(one -> one.coldC() == slice.coldC())
                .map(one -> display.pressure(one.lowestPa())
                        + (one.boundPa() > 0 ? ", gap " + CertifyWords.percent(one.gap()) : ""))
                .findFirst()
                .orElse("");
        html.element("td", found, "class", "n");
        html.element(
                "td",
                display.torqueScale().number(CertifyTorque.firstNm(build, slice)) + ", "
                        + display.torqueScale().number(CertifyTorque.topNm(build, slice)) + ", "
                        + display.torque(CertifyTorque.reverseNm(build, slice)),
                "class",
                "n");
        html.element("td", slice.limit().words());
        html.close().line();
    }

    private void cell(SliceProof slice) {
        boolean holds = slice.lowestPa() >= report.main().basis().holdPa();
        String text = slice.slice() == null ? "none" : display.pressure(slice.lowestPa());
        html.element("td", (holds ? "✓ " : "✕ ") + text, "class", holds ? "n" : "n lostcell");
    }
}
