package linehold.simulator.report;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import linehold.simulator.build.Display;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.LatentFinding;

/**
 * A fault campaign for a terminal: how many runs came to what, what came to harm and why, what the self-test at key-on
 * finds, the verdict. At most {@value #WIDTH} columns wide. Colour only adds to words.
 */
public final class FaultsTable {
    static final int WIDTH = 100;
    /** More harmful runs than this are counted, not told: the report has them all. */
    private static final int HARM_TOLD = 12;

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
        table.harm();
        table.pairs();
        table.selfTest();
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

    private void harm() {
        List<FaultRun> harmful = facts.harmful();
        for (FaultRun run : harmful.subList(0, Math.min(HARM_TOLD, harmful.size()))) {
            String label = run.claimed() ? "Harm" : "Harm, not claimed";
            paragraph(label + ": " + run.fault().kind().key() + ", "
                    + run.phase().title() + " at "
                    + display.temperature(run.oilC()) + ", " + run.outcome().title() + ": " + run.effect() + "; "
                    + run.reaction() + ".");
        }
        if (harmful.size() > HARM_TOLD) {
            paragraph("And " + Sentences.count(harmful.size() - HARM_TOLD, "more harmful run") + "; see the report.");
        }
        if (!harmful.isEmpty()) {
            out.append('\n');
        }
    }

    private void pairs() {
        if (campaign.pairRuns() == 0) {
            return;
        }
        Map<String, Long> byLatent = new TreeMap<>();
        for (FaultRun run : campaign.pairs()) {
            byLatent.merge(run.latent().key(), 1L, Long::sum);
        }
        StringBuilder text = new StringBuilder("Pairs with a silent fault: ")
                .append(Sentences.count(campaign.pairRuns(), "run"))
                .append(", ")
                .append(campaign.pairs().size())
                .append(" worse than the fault alone");
        String sign = ": ";
        for (Map.Entry<String, Long> latent : byLatent.entrySet()) {
            text.append(sign).append(latent.getValue()).append(" beside ").append(latent.getKey());
            sign = ", ";
        }
        paragraph(text.append('.').toString());
    }

    private void selfTest() {
        if (campaign.selfTest().isEmpty()) {
            return;
        }
        List<String> found = campaign.selfTest().stream()
                .filter(LatentFinding::found)
                .map(finding -> finding.kind().key())
                .toList();
        paragraph("Key-on finds " + found.size() + " of " + campaign.selfTest().size() + " silent faults before drive"
                + (found.isEmpty() ? "." : ": " + String.join(", ", found) + "."));
        out.append('\n');
    }

    private void end() {
        boolean covered = campaign.covered();
        String line = (covered ? "covered" : "not covered").toUpperCase(Locale.ROOT) + ": " + facts.verdict() + ".";
        TerminalText.wrap(line, WIDTH, "  ")
                .forEach(part ->
                        out.append(covered ? ink.good(part) : ink.bad(part)).append('\n'));
    }

    private void paragraph(String text) {
        TerminalText.wrap(text, WIDTH, "  ").forEach(line -> out.append(line).append('\n'));
    }
}
