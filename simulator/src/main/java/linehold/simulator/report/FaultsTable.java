package linehold.simulator.report;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import linehold.simulator.build.Display;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.Outcome;
import linehold.simulator.faults.Phase;
import linehold.simulator.report.FaultsFacts.Group;

/**
 * A fault campaign for a terminal, to be read in ten seconds: how many runs came to what, where the harm is and why, what
 * key-on finds, the verdict. At most {@value #WIDTH} columns wide. Colour only adds to words.
 */
public final class FaultsTable {
    static final int WIDTH = 100;
    /** More harm than this is counted, not told: the report has it all. */
    private static final int HARM_TOLD = 10;

    private final Campaign campaign;
    private final FaultsFacts facts;
    private final Display display;
    private final Ink ink;
    private final StringBuilder out = new StringBuilder();

    private FaultsTable(Campaign campaign, UnitSystem units, boolean colour) {
        this.campaign = campaign;
        this.facts = new FaultsFacts(campaign);
        this.display = new Display(units);
        this.ink = new Ink(colour);
    }

    /**
     * @param units what the numbers are printed in
     * @param colour whether the text goes to a terminal that shows colour
     * @return lines, each ended by a line feed
     */
    public static String of(Campaign campaign, UnitSystem units, boolean colour) {
        FaultsTable table = new FaultsTable(campaign, units, colour);
        table.counts();
        table.matrix();
        table.harm();
        table.besides();
        table.end();
        return table.out.toString();
    }

    private void counts() {
        paragraph("Faults of build " + campaign.build().name() + ", " + facts.tally() + ".");
        out.append('\n');
        facts.counts().forEach((outcome, count) -> {
            String line = TerminalText.padRight(outcome.title(), 22) + TerminalText.padLeft(count.toString(), 6);
            out.append(!outcome.covered() && count > 0 ? ink.bad(line) : line).append('\n');
        });
        out.append('\n');
    }

    /** Where the harm is: only faults that came to any, one letter a phase and oil temperature. */
    private void matrix() {
        Set<FaultKind> shown = new LinkedHashSet<>();
        facts.byFault().forEach((kind, runs) -> {
            if (runs.stream().anyMatch(run -> !run.outcome().covered())) {
                shown.add(kind);
            }
        });
        if (shown.isEmpty()) {
            return;
        }
        List<Phase> phases = facts.phases();
        int nameWidth =
                shown.stream().mapToInt(kind -> kind.key().length()).max().orElse(0);
        int cellWidth = Math.max(2, facts.temperaturesC().size());
        StringBuilder head = new StringBuilder(" ".repeat(nameWidth));
        for (int i = 1; i <= phases.size(); i++) {
            head.append("  ").append(TerminalText.padLeft(Integer.toString(i), cellWidth));
        }
        out.append(head).append('\n');
        for (FaultKind kind : shown) {
            out.append(TerminalText.padRight(kind.key(), nameWidth));
            for (Phase phase : phases) {
                out.append("  ").append(cell(facts.byFault().get(kind), phase, cellWidth));
            }
            out.append('\n');
        }
        int rest = facts.byFault().size() - shown.size();
        if (rest > 0) {
            paragraph("the other " + Sentences.count(rest, "fault") + ": harmless or noticed in time in every phase");
        }
        legend(phases);
        out.append('\n');
    }

    private String cell(List<FaultRun> runs, Phase phase, int width) {
        StringBuilder letters = new StringBuilder();
        boolean harm = false;
        for (double oilC : facts.temperaturesC()) {
            String letter = "-";
            for (FaultRun run : runs) {
                if (run.phase() == phase && run.oilC() == oilC) {
                    letter = FaultWords.letter(run.outcome(), run.claimed());
                    harm |= !run.outcome().covered();
                }
            }
            letters.append(letter);
        }
        String text = TerminalText.padLeft(letters.toString(), width);
        return harm ? ink.bad(text) : text;
    }

    private void legend(List<Phase> phases) {
        List<String> words = new ArrayList<>();
        for (Outcome outcome : Outcome.values()) {
            words.add(FaultWords.letter(outcome, true) + " " + outcome.title());
        }
        String order = facts.temperaturesC().stream().map(display::temperature).collect(Collectors.joining(", then "));
        paragraph(order + ": " + String.join(", ", words)
                + "; a small letter where the build does not claim to cover it");
        List<String> numbered = new ArrayList<>();
        for (int i = 0; i < phases.size(); i++) {
            numbered.add((i + 1) + " " + phases.get(i).title());
        }
        paragraph(String.join("; ", numbered));
    }

    private void harm() {
        List<Group> harm = facts.harm();
        for (Group group : harm.subList(0, Math.min(HARM_TOLD, harm.size()))) {
            FaultRun worst = group.worst();
            String more =
                    group.runs().size() == 1 ? "" : " (worst of " + group.runs().size() + ")";
            paragraph((group.claimed() ? "Harm: " : "Harm, not claimed: ")
                    + group.kind().key() + ", " + FaultWords.where(worst, display) + more + ", "
                    + group.outcome().title() + ": " + worst.effect() + ".");
        }
        if (harm.size() > HARM_TOLD) {
            paragraph("And " + (harm.size() - HARM_TOLD) + " more; see the report.");
        }
        facts.overpressure().forEach((kind, runs) -> {
            double highestPa =
                    runs.stream().mapToDouble(FaultRun::highestPressurePa).max().orElse(Double.NaN);
            paragraph("Overpressure: " + kind.key() + ", " + Sentences.count(runs.size(), "run") + ", up to "
                    + FaultWords.highest(highestPa, display) + " "
                    + display.pressureScale().label() + " in the model, in which nothing bursts.");
        });
        if (!harm.isEmpty() || !facts.overpressure().isEmpty()) {
            out.append('\n');
        }
    }

    private void besides() {
        if (campaign.pairRuns() > 0) {
            Map<FaultKind, Long> byLatent = campaign.pairs().stream()
                    .collect(Collectors.groupingBy(FaultRun::latent, TreeMap::new, Collectors.counting()));
            String beside = byLatent.entrySet().stream()
                    .map(latent ->
                            latent.getValue() + " beside " + latent.getKey().key())
                    .collect(Collectors.joining(", "));
            paragraph("Pairs with a silent fault: " + Sentences.count(campaign.pairRuns(), "run") + ", "
                    + campaign.pairs().size() + " came to more harm than the fault alone"
                    + (beside.isEmpty() ? "." : ": " + beside + "."));
        }
        if (!campaign.withoutCode().isEmpty()) {
            paragraph("Without a trouble code: "
                    + Sentences.count(campaign.withoutCode().size(), "claimed run")
                    + " noticed by withheld or reduced drive alone; " + facts.lostWithoutCode()
                    + " of them lost hold pressure.");
        }
        if (!campaign.selfTest().isEmpty()) {
            paragraph("Self-test: " + facts.selfTestTally() + ".");
        }
        paragraph("A model's evidence for a builder, no certified safety system. The report has the cautions: read them"
                + " before anything is tried on a car.");
        out.append('\n');
    }

    private void end() {
        String line = facts.word().toUpperCase(Locale.ROOT) + ": " + facts.verdict() + ".";
        TerminalText.wrap(line, WIDTH, "  ")
                .forEach(part -> out.append(campaign.covered() ? ink.good(part) : ink.bad(part))
                        .append('\n'));
    }

    private void paragraph(String text) {
        TerminalText.wrap(text, WIDTH, "  ").forEach(line -> out.append(line).append('\n'));
    }
}
