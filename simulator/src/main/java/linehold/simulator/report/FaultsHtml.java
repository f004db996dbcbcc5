package linehold.simulator.report;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.Coverage;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.LatentFinding;
import linehold.simulator.faults.Outcome;
import linehold.simulator.faults.Phase;
import linehold.simulator.output.WholeFile;

/** A fault campaign as a self-contained page: matrix, failure modes and effects, silent faults, coverage. */
public final class FaultsHtml {
    private static final List<String> EVIDENCE = List.of(
            "This is evidence for a builder, computed with the model and the numbers of the build file. It is no"
                    + " certification and no certified safety system.",
            "Faults are single, of the stated size, and begin at one instant of each phase; others may do more.",
            "Figures that published tables claim for a technique are ceilings for a whole safety case, most of them quoted"
                    + " from memory; read the standards before relying on them.",
            "Local codes, vehicle approval rules and licensed practice prevail over anything written here.");

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
        PageParts.head(page.html, campaign.build().name() + ": faults");
        page.html.open("body").open("main").line();
        page.titleBlock();
        page.counts();
        page.matrix();
        PageParts.cautions(page.html);
        page.effects();
        page.pairs();
        page.selfTest();
        page.coverage();
        PageParts.limits(page.html, EVIDENCE);
        page.html.close().close().close();
        return page.html.line().toString();
    }

    private void titleBlock() {
        Build build = campaign.build();
        boolean covered = campaign.covered();
        html.open("header", "class", "titleblock").line();
        html.open("div", "class", "what");
        html.element("p", "What does every fault do?", "class", "label");
        html.element("h1", build.name());
        if (build.description() != null && !build.description().isBlank()) {
            html.element("p", build.description());
        }
        html.close().line();
        html.open("div", "class", "answer " + (covered ? "held" : "lost"));
        html.element("p", "Claim", "class", "label");
        html.element("p", covered ? "COVERED" : "NOT COVERED", "class", "verdict");
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
        open("counts", "What became of them");
        table("counts", "facts", "Outcome", "Runs", "Meaning");
        facts.counts().forEach((outcome, count) -> {
            html.open("tr").element("th", mark(outcome) + " " + outcome.title(), "scope", "row");
            html.element("td", count.toString(), "class", "n").element("td", meaning(outcome));
            html.close().line();
        });
        closeTable();
        html.close().line();
    }

    private static String meaning(Outcome outcome) {
        return switch (outcome) {
            case HARMLESS -> "nothing slipped, the line held, nobody needed to notice";
            case NOTICED_IN_TIME -> "a trouble code was raised, and nothing slipped under the torque still permitted";
            case SLIP_DESPITE_NOTICE -> "noticed first, and an element slipped all the same";
            case SLIP_BEFORE_NOTICE -> "an element slipped before the controller noticed";
            case NEVER_NOTICED -> "an element slipped or lost its hold pressure without a trouble code";
        };
    }

    /** A sign that tells outcomes apart without colour. */
    private static String mark(Outcome outcome) {
        return switch (outcome) {
            case HARMLESS -> "·";
            case NOTICED_IN_TIME -> "✓";
            case SLIP_DESPITE_NOTICE -> "▲";
            case SLIP_BEFORE_NOTICE -> "✕";
            case NEVER_NOTICED -> "■";
        };
    }

    private void matrix() {
        open("matrix", "Every fault in every phase");
        String corners =
                facts.temperaturesC().stream().map(display::temperature).collect(Collectors.joining(", then "));
        html.element("p", "Each cell has one sign an oil temperature: " + corners + ". Signs as in the table above.")
                .line();
        List<Phase> phases = facts.phases();
        List<String> heads = new ArrayList<>(List.of("Fault"));
        phases.forEach(phase -> heads.add(phase.title()));
        table("matrix", "matrix faults", heads.toArray(String[]::new));
        FaultKind.Part part = null;
        for (Map.Entry<FaultKind, List<FaultRun>> fault : facts.byFault().entrySet()) {
            if (fault.getKey().part() != part) {
                part = fault.getKey().part();
                html.open("tr")
                        .element(
                                "th",
                                part.title(),
                                "scope",
                                "rowgroup",
                                "colspan",
                                String.valueOf(heads.size()),
                                "class",
                                "part");
                html.close().line();
            }
            html.open("tr").element("th", name(fault.getKey()), "scope", "row");
            for (Phase phase : phases) {
                cell(fault.getValue(), phase);
            }
            html.close().line();
        }
        closeTable();
        html.close().line();
    }

    private void cell(List<FaultRun> runs, Phase phase) {
        List<FaultRun> here = runs.stream().filter(run -> run.phase() == phase).toList();
        if (here.isEmpty()) {
            html.element("td", "–", "class", "c");
            return;
        }
        String signs = here.stream().map(run -> mark(run.outcome())).collect(Collectors.joining(" "));
        boolean harm = here.stream().anyMatch(run -> !run.outcome().covered());
        String words = here.stream()
                .map(run ->
                        display.temperature(run.oilC()) + ": " + run.outcome().title())
                .collect(Collectors.joining(", "));
        html.open("td", "class", harm ? "c lostcell" : "c", "title", words);
        html.element(harm ? "strong" : "span", signs).close();
    }

    private static String name(FaultKind kind) {
        return kind.usualSizeText().isEmpty() ? kind.title() : kind.title() + " (" + kind.usualSizeText() + ")";
    }

    private void effects() {
        open("effects", "Failure modes and effects");
        html.element(
                        "p",
                        "Runs of one fault that came to the same end by the same code stand in one row, with the run in"
                                + " which the line or the margin came lowest.")
                .line();
        table(
                "effects",
                "effects",
                "Fault",
                "Phases",
                "Effect",
                "Detection",
                "Reaction",
                "Lowest, " + display.pressureScale().label(),
                "Margin",
                "Residual risk");
        facts.byFault().forEach((kind, runs) -> {
            Map<String, List<FaultRun>> groups = runs.stream()
                    .collect(Collectors.groupingBy(
                            run -> run.outcome().ordinal() + " " + run.claimed() + " " + run.codes(),
                            java.util.TreeMap::new,
                            Collectors.toList()));
            groups.values().forEach(group -> effect(kind, group));
        });
        closeTable();
        html.close().line();
    }

    private void effect(FaultKind kind, List<FaultRun> group) {
        FaultRun worst = group.get(0);
        for (FaultRun run : group) {
            if (worse(run, worst)) {
                worst = run;
            }
        }
        Outcome outcome = worst.outcome();
        html.open("tr", "class", outcome.covered() ? "ok" : "harm");
        html.element("th", name(kind), "scope", "row");
        html.element("td", phases(group));
        html.element("td", Sentences.whole(worst.effect()));
        html.element("td", detection(worst, group));
        html.element("td", Sentences.whole(worst.reaction()));
        html.element("td", display.pressureScale().number(worst.lowestPressurePa()), "class", "n");
        html.element(
                "td",
                Double.isFinite(worst.lowestMargin()) ? Numbers.fixed(worst.lowestMargin(), 2) : "–",
                "class",
                "n");
        html.open("td", "class", outcome.covered() ? "" : "lostcell");
        html.element("strong", mark(outcome) + " " + outcome.title())
                .text(". " + risk(worst))
                .close();
        html.close().line();
    }

    private static boolean worse(FaultRun run, FaultRun than) {
        if (run.lowestMargin() != than.lowestMargin()) {
            return run.lowestMargin() < than.lowestMargin();
        }
        return run.lowestPressurePa() < than.lowestPressurePa();
    }

    private String phases(List<FaultRun> group) {
        List<String> names =
                group.stream().map(run -> run.phase().title()).distinct().toList();
        String runs = Sentences.count(group.size(), "run");
        return names.size() > 4
                ? names.size() + " of " + facts.phases().size() + " phases, " + runs
                : String.join(", ", names) + "; " + runs;
    }

    private String detection(FaultRun worst, List<FaultRun> group) {
        if (worst.codes().isEmpty()) {
            return "none";
        }
        double latest =
                group.stream().mapToDouble(FaultRun::noticedAfterS).max().orElse(Double.NaN);
        return String.join(", ", worst.codes()) + ", " + display.time(worst.noticedAfterS()) + " after it"
                + (latest > worst.noticedAfterS() ? " (at the latest " + display.time(latest) + ")" : "");
    }

    private static String risk(FaultRun run) {
        String claim = run.claimed() ? "" : " Not claimed by the build.";
        return switch (run.outcome()) {
                    case HARMLESS -> "None seen.";
                    case NOTICED_IN_TIME -> "A driver who ignores the lamp.";
                    case SLIP_DESPITE_NOTICE -> "Clutch wear while the drive is being taken back.";
                    case SLIP_BEFORE_NOTICE -> "One slip of the element under torque.";
                    case NEVER_NOTICED -> "Wear that nobody is told of.";
                }
                + claim;
    }

    private void pairs() {
        open("pairs", "Pairs with a silent fault");
        html.element(
                        "p",
                        Sentences.count(campaign.pairRuns(), "run") + " with a fault that was there before key-on; "
                                + campaign.pairs().size() + " came to more harm than the fault alone.")
                .line();
        if (!campaign.pairs().isEmpty()) {
            table("pairs", "effects", "Silent fault", "Fault", "Worst", "Runs", "Example");
            Map<String, List<FaultRun>> groups = campaign.pairs().stream()
                    .collect(Collectors.groupingBy(
                            run -> String.format(
                                    Locale.ROOT,
                                    "%03d %03d",
                                    run.latent().ordinal(),
                                    run.fault().kind().ordinal()),
                            java.util.TreeMap::new,
                            Collectors.toList()));
            groups.values().forEach(this::pair);
            closeTable();
        }
        html.close().line();
    }

    private void pair(List<FaultRun> group) {
        FaultRun worst = group.stream()
                .reduce((a, b) -> b.outcome().compareTo(a.outcome()) > 0 ? b : a)
                .orElseThrow();
        html.open("tr").element("th", worst.latent().title(), "scope", "row");
        html.element("td", name(worst.fault().kind()));
        html.element("td", mark(worst.outcome()) + " " + worst.outcome().title());
        html.element("td", String.valueOf(group.size()), "class", "n");
        html.element(
                "td",
                Sentences.whole(worst.phase().title() + " at " + display.temperature(worst.oilC()) + ": "
                        + worst.effect() + "; " + worst.reaction()));
        html.close().line();
    }

    private void selfTest() {
        open("selftest", "Silent faults and key-on");
        html.element(
                        "p",
                        "A fault that was there before key-on and does no harm by itself is silent. Before drive is"
                                + " granted, key-on finds " + facts.selfTestFinds() + " of "
                                + campaign.selfTest().size() + ".")
                .line();
        table("selftest", "facts", "Fault", "Found at key-on", "Codes");
        for (LatentFinding finding : campaign.selfTest()) {
            html.open("tr").element("th", name(finding.kind()), "scope", "row");
            html.element("td", finding.found() ? "✓ found" : "· not found");
            html.element("td", finding.codes().isEmpty() ? "none" : String.join(", ", finding.codes()));
            html.close().line();
        }
        closeTable();
        html.close().line();
    }

    private void coverage() {
        open("coverage", "Coverage by part");
        table(
                "coverage",
                "effects",
                "Part",
                "Technique",
                "Modes found before harm",
                "Runs found before harm",
                "Published claim",
                "Source");
        for (Coverage part : campaign.coverage()) {
            html.open("tr").element("th", part.part().title(), "scope", "row").element("td", part.technique());
            html.element("td", share(part.foundBeforeHarm(), part.modes()), "class", "n");
            html.element("td", share(part.runsBeforeHarm(), part.runs()), "class", "n");
            html.element("td", part.published()).element("td", part.publishedSource());
            html.close().line();
        }
        closeTable();
        html.close().line();
    }

    private static String share(int of, int all) {
        return of + " of " + all + (all == 0 ? "" : " (" + Math.round(100.0 * of / all) + " %)");
    }

    private void open(String id, String title) {
        html.open("section", "aria-labelledby", id);
        html.element("h2", title, "id", id).line();
    }

    private void table(String id, String style, String... heads) {
        html.open("div", "class", "scroll", "tabindex", "0", "role", "group", "aria-labelledby", id);
        html.open("table", "class", style, "aria-labelledby", id).open("thead").open("tr");
        for (String head : heads) {
            html.element("th", head, "scope", "col");
        }
        html.close().close().open("tbody").line();
    }

    private void closeTable() {
        html.close().close().close().line();
    }
}
