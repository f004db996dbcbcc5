package linehold.simulator.report;

import java.util.List;
import linehold.simulator.build.Display;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.certify.Certification;
import linehold.simulator.certify.Counterexample;
import linehold.simulator.certify.Report;
import linehold.simulator.certify.SliceProof;

/** A certification for a terminal, at most {@value #WIDTH} columns wide. */
public final class CertifyTable {
    static final int WIDTH = 100;

    private CertifyTable() {}

    /** Lines, each ended by a line feed. */
    public static String of(Report report, UnitSystem units) {
        Display display = new Display(units);
        CertifyWords words = new CertifyWords(report, display);
        StringBuilder out = new StringBuilder();
        paragraph(out, words.question(), "");
        out.append('\n');
        row(out, "oil, " + display.temperatureScale().label(), "as written", "any car", "found", "in first", "set by");
        List<SliceProof> slices = report.main().slices();
        for (int i = 0; i < slices.size(); i++) {
            SliceProof slice = slices.get(i);
            Certification spread = report.withSpreads();
            row(
                    out,
                    words.slice(slice),
                    pressure(display, report.asWritten().slices().get(i)),
                    spread == null ? "–" : pressure(display, spread.slices().get(i)),
                    found(report, display, slice),
                    display.torque(CertifyTorque.firstNm(report.main().build(), slice)),
                    slice.limit().title());
        }
        out.append('\n');
        paragraph(out, words.verdict(), "  ");
        for (String line : words.limits()) {
            paragraph(out, line, "  ");
        }
        paragraph(out, words.worst(), "  ");
        out.append("Not covered:\n");
        for (String line : Report.NOT_COVERED) {
            paragraph(out, "- " + line, "  ");
        }
        return out.toString();
    }

    private static String pressure(Display display, SliceProof slice) {
        return slice.slice() == null ? "–" : display.pressure(slice.lowestPa());
    }

    private static String found(Report report, Display display, SliceProof slice) {
        for (Counterexample one : report.found()) {
            if (one.coldC() == slice.coldC()) {
                return display.pressure(one.lowestPa());
            }
        }
        return "";
    }

    private static void row(StringBuilder out, String... cells) {
        int[] widths = {14, 12, 12, 12, 12};
        StringBuilder line = new StringBuilder();
        for (int i = 0; i < widths.length; i++) {
            line.append(TerminalText.padLeft(cells[i], widths[i]));
        }
        line.append("  ").append(cells[widths.length]);
        out.append(TerminalText.fit(line.toString(), WIDTH).stripTrailing()).append('\n');
    }

    private static void paragraph(StringBuilder out, String text, String indent) {
        for (String line : TerminalText.wrap(text, WIDTH, indent)) {
            out.append(line).append('\n');
        }
    }
}
