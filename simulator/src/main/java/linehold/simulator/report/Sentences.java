package linehold.simulator.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import linehold.simulator.drive.RepairCounts;
import linehold.simulator.prove.Loss;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.prove.Verdict;

/** Sentences that table and page share. */
final class Sentences {
    private Sentences() {}

    /** {@code 3 of 60 runs lost (12 drives at 5 oil temperatures)}. */
    static String tally(Verdict verdict) {
        Grid grid = new Grid(verdict);
        int all = verdict.runs().size();
        long lost = verdict.runs().stream().filter(run -> !run.held()).count();
        String over = " (" + count(grid.drives().size(), "drive") + " at "
                + count(grid.temperaturesC().size(), "oil temperature") + ")";
        return (lost == 0 ? "all " + count(all, "run") + " held" : lost + " of " + count(all, "run") + " lost") + over;
    }

    /** The most severe loss with time and cause, the others by name. */
    static String losses(RunVerdict run) {
        String text = loss(run.losses().get(0));
        List<String> others = run.losses().stream()
                .skip(1)
                .map(loss -> loss.criterion().title())
                .toList();
        return others.isEmpty() ? text : text + " Also lost: " + String.join(", ", others) + ".";
    }

    static String loss(Loss loss) {
        String when = Double.isFinite(loss.atS()) ? " at " + Numbers.fixed(loss.atS(), 2) + " s" : "";
        return broken(loss.criterion()) + when + ": " + ended(loss.cause());
    }

    private static String broken(Loss.Criterion criterion) {
        return switch (criterion) {
            case NEVER_PRIMED -> "the line was not primed";
            case PRESSURE_LOST -> "line pressure fell below the hold pressure";
            case MARGIN_LOST -> "capacity margin fell below the safety factor";
            case ENGAGEMENT_LATE -> "an engagement took too long";
            case DRIVE_REFUSED -> "drive was refused";
        };
    }

    /** What the log reader mended, one entry a kind. */
    static List<String> repairs(RepairCounts repairs) {
        List<String> lines = new ArrayList<>();
        if (repairs.startPutBeforeS() > 0) {
            lines.add("the log has no start of its own: " + Numbers.fixed(repairs.startPutBeforeS(), 0)
                    + " s of key on and engaging at standstill stand before it, and times count from there");
        }
        if (repairs.skippedLines() > 0) {
            lines.add(count(repairs.skippedLines(), "line") + " of the log skipped (comments, blanks, start-up text)");
        }
        if (repairs.duplicateRows() > 0) {
            lines.add(count(repairs.duplicateRows(), "row") + " with a repeated time stamp: the later one counts");
        }
        if (repairs.backwardRows() > 0) {
            lines.add(count(repairs.backwardRows(), "row") + " with a time stamp that runs backward left out");
        }
        if (repairs.emptyCells() > 0) {
            lines.add(count(repairs.emptyCells(), "empty cell") + " filled from the row before");
        }
        if (repairs.endedByGap()) {
            lines.add("a gap in the log ended the evidence at " + Numbers.fixed(repairs.endedAtS(), 1)
                    + " s: what came after it is not judged");
        }
        return lines;
    }

    static String count(long number, String noun) {
        return number + " " + noun + (number == 1 ? "" : "s");
    }

    /** A whole sentence: it starts with a capital letter and ends with a stop. */
    static String whole(String sentence) {
        String text = ended(sentence);
        return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }

    private static String ended(String sentence) {
        String text = sentence.strip();
        return text.endsWith(".") || text.endsWith("!") ? text : text + ".";
    }
}
