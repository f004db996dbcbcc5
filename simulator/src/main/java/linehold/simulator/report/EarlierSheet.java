package linehold.simulator.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.size.SizeLine;
import linehold.simulator.size.SizeSheet;
import linehold.simulator.size.SizeVerdict;

/**
 * A sizing sheet of an earlier run, as far as a later one is compared with it.
 *
 * @param build name of its build
 * @param lines by key
 */
public record EarlierSheet(String build, Map<String, Line> lines) {
    /** Results nearer than this, relatively, count as the same: rounding of another machine is no change. */
    private static final double SAME = 1e-9;

    /**
     * @param result SI; NaN where there was none
     */
    record Line(String title, double result, SizeVerdict verdict) {}

    /** One line that is not what it was: title, before, now; a verdict stands behind where it changed. */
    record Change(String title, String before, String now, boolean verdictChanged) {}

    /** What changed, in the order of the sheet; what is gone comes last. */
    List<Change> changes(SizeSheet sheet, UnitSystem units) {
        List<Change> changes = new ArrayList<>();
        for (SizeLine line : sheet.lines()) {
            Line before = lines.get(line.key());
            if (before == null) {
                changes.add(new Change(
                        line.title(), "no such line", words(line, line.result(), line.verdict(), units), true));
            } else if (before.verdict() != line.verdict() || !same(before.result(), line.result())) {
                changes.add(new Change(
                        line.title(),
                        words(line, before.result(), before.verdict(), units),
                        words(line, line.result(), line.verdict(), units),
                        before.verdict() != line.verdict()));
            }
        }
        lines.forEach((key, before) -> {
            if (sheet.lines().stream().noneMatch(line -> line.key().equals(key))) {
                changes.add(new Change(before.title(), before.verdict().text(), "no such line", true));
            }
        });
        return changes;
    }

    private static String words(SizeLine line, double result, SizeVerdict verdict, UnitSystem units) {
        return switch (verdict) {
            case NOT_GIVEN -> verdict.text();
            case INFORMATION -> line.measure().text(result, units);
            case OK, TIGHT, NOT_ENOUGH -> line.measure().text(result, units) + ", " + verdict.text();
        };
    }

    /** A result that never comes is null in the file, so infinite and NaN are the same here. */
    private static boolean same(double before, double now) {
        if (!Double.isFinite(before) || !Double.isFinite(now)) {
            return Double.isFinite(before) == Double.isFinite(now);
        }
        return Math.abs(before - now) <= SAME * Math.max(Math.abs(before), Math.abs(now));
    }
}
