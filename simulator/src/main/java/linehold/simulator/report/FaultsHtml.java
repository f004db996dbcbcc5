package linehold.simulator.report;

import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.Coverage;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.LatentFinding;
import linehold.simulator.faults.Outcome;
import linehold.simulator.output.WholeFile;
import linehold.simulator.report.FaultsFacts.Group;

/**
 * A fault campaign as one page that needs nothing else: no network, no script, no date. Matrix of faults and phases,
 * failure modes and effects, pairs, silent faults, coverage. Also well-formed XML.
 */
public final class FaultsHtml {
    private static final List<String> EVIDENCE = List.of(
            "This is evidence for a builder, computed with the model and the numbers of the build file. It is not a"
                    + " certification.",
            "Every fault has the stated size and begins at one instant of each phase; another size or another instant"
                    + " may do more. Faults that nobody listed were not tried.");

    private final Campaign campaign;
    private final FaultsFacts facts;
    private final Display display;
    private final Markup html = new Markup();

    private FaultsHtml(Campaign campaign, UnitSystem units) {
        this.campaign = campaign;
        this.facts = new FaultsFacts(campaign);
        this.display = new Display(units);
    }

    /** Writes the page, replacing one that is there. */
    public static void write(Campaign campaign, UnitSystem units, Path file) {
        WholeFile.writeText(file, of(campaign, units));
    }

    /** The page's text. */
    public static String of(Campaign campaign, UnitSystem units) {
        FaultsHtml page = new FaultsHtml(campaign, units);
        FaultEffects effects = new FaultEffects(page.facts, page.display, page.html);
        PageParts.head(page.html, campaign.build().name() + ": faults, " + page.facts.word());
        page.html.open("body").open("main", "class", "broad").line();
        page.titleBlock();
        page.counts();
        page.harm();
        PageParts.cautions(page.html);
        new FaultMatrix(page.facts, page.display, page.html).write();
        effects.write();
        effects.codes();
        page.pairs();
        page.selfTest();
        page.coverage();
        // The first sentence there names what a verdict on drives leaves out: seals and wiring, which are tried here.
        PageParts.limits(
                page.html,
                Stream.concat(EVIDENCE.stream(), Cautions.RESULT.stream().skip(1))
                        .toList());
        page.html.close().close().close();
        return page.html.line().toString();
    }

    private void titleBlock() {
        Build build = campaign.build();
        html.open("header", "class", "titleblock").line();
        html.open("div", "class", "what");
        html.element("p", "What does every single fault do?", "class", "label");
        html.element("h1", build.name());
        if (build.description() != null && !build.description().isBlank()) {
            html.element("p", build.description());
        }
        html.close().line();
        html.open("div", "class", "answer " + (campaign.covered() ? "held" : "lost"));
        html.element("p", "Verdict on what the build claims", "class", "label");
        html.element("p", facts.word().toUpperCase(Locale.ROOT), "class", "verdict");
        html.element("p", Sentences.whole(facts.verdict()));
        html.close().line();
        html.open("dl");
        entry("Tried", facts.tally());
        entry("Must keep", display.pressure(build.limits().holdPressurePa()));
        entry(
                "Build file",
                build.sha256().substring(0, Math.min(12, build.sha256().length())));
        html.close().close().line();
    }

    private void entry(String name, String value) {
        html.open("div").element("dt", name).element("dd", value).close();
    }

    private void counts() {
        table("counts", "What became of them", "", "facts counts", "Outcome", "Runs", "Meaning");
        facts.counts().forEach((outcome, count) -> {
            html.open("tr").element("th", FaultWords.sign(outcome) + " " + outcome.title(), "scope", "row");
            html.open("td", "class", outcome.covered() || count == 0 ? "n" : "n lostcell");
            html.element(outcome.covered() || count == 0 ? "span" : "strong", count.toString())
                    .close();
            html.element("td", FaultWords.meaning(outcome));
            html.close().line();
        });
        int silent = campaign.withoutCode().size();
        if (silent > 0) {
            html.open("tr")
                    .element(
                            "th",
                            FaultWords.sign(Outcome.NOTICED_IN_TIME) + " of these without a code",
                            "scope",
                            "row");
            html.element("td", Integer.toString(silent), "class", "n");
            html.element(
                    "td",
                    "claimed runs noticed by withheld or reduced drive alone; " + facts.lostWithoutCode()
                            + " of them lost hold pressure");
            html.close().line();
        }
        long over = facts.overpressure().values().stream().mapToLong(List::size).sum();
        if (over > 0) {
            html.open("tr").element("th", FaultWords.OVERPRESSURE + " overpressure besides", "scope", "row");
            html.open("td", "class", "n lostcell")
                    .element("strong", Long.toString(over))
                    .close();
            html.element(
                    "td", "the line rose above what its regulator can let through; the model has nothing that bursts");
            html.close().line();
        }
        closeTable();
    }

    /** What came to harm and why, one entry a fault. */
    private void harm() {
        html.open("section", "aria-labelledby", "harm");
        html.element("h2", "What is not covered, and why", "id", "harm");
        List<Group> harm = facts.harm();
        if (harm.isEmpty() && facts.overpressure().isEmpty()) {
            html.element("p", "Nothing came to harm.").close().line();
            return;
        }
        html.open("ul", "class", "losses");
        for (Group group : harm) {
            FaultRun worst = group.worst();
            String more =
                    group.runs().size() == 1 ? "" : " (worst of " + group.runs().size() + " runs that came to this)";
            item(
                    FaultWords.sign(group.outcome()) + " " + FaultWords.name(group.kind()) + ": "
                            + group.outcome().title()
                            + (group.claimed() ? ", claimed by the build" : ", not claimed"),
                    FaultWords.where(worst, display) + more + ": " + worst.effect() + "; " + worst.reaction());
        }
        facts.overpressure().forEach((kind, runs) -> {
            FaultRun worst = runs.stream()
                    .max(Comparator.comparing(FaultRun::highestPressurePa))
                    .orElseThrow();
            item(
                    FaultWords.OVERPRESSURE + " " + FaultWords.name(kind) + ": overpressure",
                    Sentences.count(runs.size(), "run") + ", up to "
                            + FaultWords.highest(worst.highestPressurePa(), display) + " "
                            + display.pressureScale().label()
                            + " in the model (" + FaultWords.where(worst, display)
                            + "); in a car a hose, a seal or the case bursts before. Only a relief valve on the line"
                            + " itself helps");
        });
        html.close().close().line();
    }

    private void item(String title, String text) {
        html.open("li").element("strong", Sentences.whole(title)).text(" " + Sentences.whole(text));
        html.close().line();
    }

    private void pairs() {
        String intro = Sentences.count(campaign.pairRuns(), "run")
                + " with one of the silent faults there from before key-on: every fault in every phase beside it. "
                + campaign.pairs().size()
                + " of them came to harm, and to more of it than the fault alone. Claims are about single faults.";
        Map<List<FaultKind>, List<FaultRun>> groups = campaign.pairs().stream()
                .collect(Collectors.groupingBy(
                        run -> List.of(run.latent(), run.fault().kind()),
                        () -> new TreeMap<>(Comparator.comparing((List<FaultKind> pair) -> pair.get(0))
                                .thenComparing(pair -> pair.get(1))),
                        Collectors.toList()));
        if (groups.isEmpty()) {
            section("pairs", "Pairs with a silent fault", intro);
            html.close().line();
            return;
        }
        table(
                "pairs",
                "Pairs with a silent fault",
                intro,
                "effects",
                "Silent fault",
                "Fault",
                "Runs",
                "Worst outcome",
                "Worst run");
        groups.values().forEach(this::pair);
        closeTable();
    }

    private void pair(List<FaultRun> runs) {
        FaultRun worst = runs.stream().min(FaultsFacts.WORST_FIRST).orElseThrow();
        Outcome outcome = worst.outcome();
        html.open("tr").element("th", worst.latent().title(), "scope", "row");
        html.element("td", FaultWords.name(worst.fault().kind()));
        html.element("td", String.valueOf(runs.size()), "class", "n");
        html.open("td", "class", "lostcell").element("strong", FaultWords.sign(outcome) + " " + outcome.title());
        html.close();
        html.element(
                "td",
                Sentences.whole(FaultWords.where(worst, display) + ": " + worst.effect() + "; " + worst.reaction()));
        html.close().line();
    }

    private void selfTest() {
        table(
                "selftest",
                "Silent faults and key-on",
                Sentences.whole(facts.selfTestTally())
                        + " Key-on can only find what shows while the car stands in park.",
                "facts",
                "Fault",
                "Found at key-on",
                "Codes");
        for (LatentFinding finding : campaign.selfTest()) {
            html.open("tr").element("th", FaultWords.name(finding.kind()), "scope", "row");
            html.element(
                    "td",
                    finding.found()
                            ? "✓ found"
                            : finding.codes().isEmpty() ? "✕ not found" : "✕ not at every oil temperature");
            html.element("td", finding.codes().isEmpty() ? "none" : String.join(", ", finding.codes()));
            html.close().line();
        }
        closeTable();
    }

    private void coverage() {
        table(
                "coverage",
                "Coverage by part",
                "Share of failure modes, and of runs, that were harmless or noticed in time, without overpressure. A mode"
                        + " counts where this is so in every phase and at every oil temperature. Modes count evenly; a"
                        + " diagnostic coverage in the sense of the standards weighs them by failure rate. The published"
                        + " figures are the most that a technique may be credited with; those marked so are from memory:"
                        + " read the standards before you rely on them. This is evidence for a builder, not a"
                        + " certification.",
                "effects coverage",
                "Part",
                "Diagnostic technique",
                "Modes found before harm",
                "Runs found before harm",
                "Published for the technique",
                "Source");
        for (Coverage part : campaign.coverage()) {
            html.open("tr").element("th", part.part().title(), "scope", "row").element("td", part.technique());
            html.element("td", share(part.foundBeforeHarm(), part.modes()), "class", "n");
            html.element("td", share(part.runsBeforeHarm(), part.runs()), "class", "n");
            html.element("td", part.published()).element("td", part.publishedSource());
            html.close().line();
        }
        closeTable();
    }

    /** Rounded down: 311 of 312 are not all. */
    private static String share(int of, int all) {
        return of + " of " + all + (all == 0 ? "" : " (" + 100 * of / all + "\u00a0%)");
    }

    private void section(String id, String title, String intro) {
        html.open("section", "aria-labelledby", id);
        html.element("h2", title, "id", id).line();
        if (!intro.isEmpty()) {
            html.element("p", intro).line();
        }
    }

    /** A section with a table in a box that scrolls by itself. */
    private void table(String id, String title, String intro, String style, String... heads) {
        section(id, title, intro);
        html.open("div", "class", "scroll", "tabindex", "0", "role", "group", "aria-labelledby", id);
        html.open("table", "class", style, "aria-labelledby", id).open("thead").open("tr");
        for (String head : heads) {
            html.element("th", head, "scope", "col");
        }
        html.close().close().open("tbody").line();
    }

    private void closeTable() {
        html.close().close().close().close().line();
    }
}
