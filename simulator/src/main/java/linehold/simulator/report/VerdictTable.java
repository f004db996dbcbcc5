package linehold.simulator.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import linehold.simulator.build.Display;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.prove.Verdict;

/**
 * The verdict for a terminal, to be read in ten seconds: lowest pressure of every drive at every oil temperature, what
 * was lost, the weakest moment, the verdict. At most {@value #WIDTH} columns wide. Colour only adds to words.
 */
public final class VerdictTable {
    static final int WIDTH = 100;
    /** More lost drives than this are counted, not listed: the report has them all. */
    private static final int LOSSES_LISTED = 8;

    private static final int LONGEST_NAME = 34;
    private static final String MARK = " LOST";

    private final Verdict verdict;
    private final Grid grid;
    private final Display display;
    private final Ink ink;
    private final StringBuilder out = new StringBuilder();

    private VerdictTable(Verdict verdict, UnitSystem units, boolean colour) {
        this.verdict = verdict;
        this.grid = new Grid(verdict);
        this.display = new Display(units);
        this.ink = new Ink(colour);
    }

    /**
     * @param units what the numbers are printed in
     * @param colour whether the text goes to a terminal that shows colour
     * @return lines, each ended by a line feed
     */
    public static String of(Verdict verdict, UnitSystem units, boolean colour) {
        VerdictTable table = new VerdictTable(verdict, units, colour);
        table.head();
        table.matrices();
        table.losses();
        table.remarks();
        table.end();
        return table.out.toString();
    }

    private void head() {
        String name = verdict.build().name();
        paragraph(
                "",
                "Lowest line pressure, element engaged and settled, "
                        + display.pressureScale().label() + "; build " + name + " must keep "
                        + display.pressure(verdict.build().limits().holdPressurePa()) + ".");
        out.append('\n');
    }

    /** One table, or several below each other where the temperatures do not fit side by side. */
    private void matrices() {
        int name = Math.min(
                LONGEST_NAME,
                grid.drives().stream().mapToInt(TerminalText::width).max().orElse(0));
        int cell = cellWidth();
        int perTable = Math.max(1, (WIDTH - name) / (cell + 2));
        List<Double> all = grid.temperaturesC();
        for (int from = 0; from < all.size(); from += perTable) {
            matrix(all.subList(from, Math.min(all.size(), from + perTable)), name, cell);
            out.append('\n');
        }
    }

    private void matrix(List<Double> temperaturesC, int nameWidth, int cellWidth) {
        StringBuilder head = new StringBuilder(TerminalText.padRight("", nameWidth));
        for (double oilC : temperaturesC) {
            // The mark stands right of the number, so the head stands above the number.
            head.append("  ")
                    .append(TerminalText.padLeft(display.temperature(oilC), cellWidth - MARK.length()))
                    .append(" ".repeat(MARK.length()));
        }
        out.append(head.toString().stripTrailing()).append('\n');
        for (String drive : grid.drives()) {
            StringBuilder row = new StringBuilder(TerminalText.fit(drive, nameWidth));
            for (double oilC : temperaturesC) {
                row.append("  ").append(cell(grid.run(drive, oilC), cellWidth));
            }
            out.append(row.toString().stripTrailing()).append('\n');
        }
    }

    private String cell(RunVerdict run, int width) {
        if (run == null) {
            return " ".repeat(width);
        }
        String number = TerminalText.padLeft(number(run), width - MARK.length());
        return run.held() ? number + " ".repeat(MARK.length()) : ink.bad(number + MARK);
    }

    private String number(RunVerdict run) {
        double lowest = run.lowPoint().pressurePa();
        return Double.isFinite(lowest) ? display.pressureScale().number(lowest) : "none";
    }

    private int cellWidth() {
        int widest = 4;
        for (RunVerdict run : verdict.runs()) {
            widest = Math.max(widest, TerminalText.width(number(run)));
            widest = Math.max(widest, TerminalText.width(display.temperature(run.oilC())));
        }
        return widest + MARK.length();
    }

    /** One entry a drive: where it was lost, and how in the worst of these runs. */
    private void losses() {
        List<List<RunVerdict>> lost = new ArrayList<>();
        for (String drive : grid.drives()) {
            List<RunVerdict> runs =
                    grid.runs(drive).stream().filter(run -> !run.held()).toList();
            if (!runs.isEmpty()) {
                lost.add(runs);
            }
        }
        for (List<RunVerdict> runs : lost.subList(0, Math.min(LOSSES_LISTED, lost.size()))) {
            RunVerdict worst = runs.stream().min(Grid.WORST_FIRST).orElseThrow();
            String more = runs.size() == 1 ? "" : " (worst of " + runs.size() + ")";
            paragraph(
                    "Lost: ",
                    worst.drive() + " at " + display.temperature(worst.oilC()) + more + ": " + Sentences.losses(worst));
        }
        if (lost.size() > LOSSES_LISTED) {
            paragraph("", "And " + (lost.size() - LOSSES_LISTED) + " more drives with lost runs; see the report.");
        }
        if (!lost.isEmpty()) {
            out.append('\n');
        }
    }

    private void remarks() {
        List<String> codes = verdict.runs().stream()
                .flatMap(run -> run.codes().stream())
                .distinct()
                .sorted()
                .toList();
        if (!codes.isEmpty()) {
            paragraph("Trouble codes raised: ", String.join(", ", codes) + ".");
        }
        long warned = verdict.runs().stream()
                .filter(run -> !run.warnings().isEmpty() || run.repairs().any())
                .count();
        if (warned > 0) {
            paragraph(
                    "Note: ",
                    Sentences.count(warned, "run")
                            + " came with warnings or with a log that was mended; see the report.");
        }
        verdict.runs().stream()
                .filter(run -> run.repairs().endedByGap())
                .map(run -> run.drive() + " is judged up to "
                        + Numbers.fixed(run.repairs().endedAtS(), 1)
                        + " s only: a gap in the log ends the evidence there.")
                .distinct()
                .forEach(line -> paragraph("Note: ", line));
        if (!codes.isEmpty() || warned > 0) {
            out.append('\n');
        }
    }

    private void end() {
        paragraph("Weakest moment: ", Sentences.whole(verdict.weakest()));
        String word = verdict.held() ? "held" : "lost";
        String line = word.toUpperCase(Locale.ROOT) + ": " + Sentences.tally(verdict) + ".";
        out.append(verdict.held() ? ink.good(line) : ink.bad(line)).append('\n');
    }

    /** A label and a text, wrapped; following lines are indented by two. */
    private void paragraph(String label, String text) {
        TerminalText.wrap(label + text, WIDTH, "  ")
                .forEach(line -> out.append(line).append('\n'));
    }
}
