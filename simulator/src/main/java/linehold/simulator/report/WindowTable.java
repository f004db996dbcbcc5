package linehold.simulator.report;

import java.util.List;
import linehold.simulator.build.Display;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.window.Window;
import linehold.simulator.window.Window.Bound;
import linehold.simulator.window.Window.Pair;
import linehold.simulator.window.Window.Price;
import linehold.simulator.window.Window.Proof;

/** A switch-over window for a terminal; the page has more. */
public final class WindowTable {
    private static final int WIDTH = VerdictTable.WIDTH;

    /** The page ranks them all. */
    private static final int MOST_RANKED = 10;

    private final Window window;
    private final Display display;
    private final StringBuilder out = new StringBuilder();

    private WindowTable(Window window, UnitSystem units) {
        this.window = window;
        this.display = new Display(units);
    }

    /**
     * @param changes lines of {@link Comparison} against a previous window; null without one
     * @return lines, each ended by a line feed
     */
    public static String of(Window window, UnitSystem units, List<String> changes) {
        WindowTable table = new WindowTable(window, units);
        table.write(changes);
        return table.out.toString();
    }

    private void write(List<String> changes) {
        WindowTables tables = new WindowTables(window, display);
        out.append(tables.carry().text(WIDTH));
        out.append(tables.lead().text(WIDTH));
        out.append(tables.limits().text(WIDTH));
        out.append(tables.aids(window.oilC().get(window.oilC().size() - 1)).text(WIDTH));
        paragraph("", "The 500 rpm rule of thumb (common practice), speed alone:");
        tables.rule().forEach(line -> paragraph("  ", line));
        out.append('\n');
        if (changes != null) {
            changes(changes);
        }
        List<String> notes = WindowSentences.notes(window, display);
        notes.forEach(note -> paragraph("Note: ", note));
        out.append(notes.isEmpty() ? "" : "\n");
        if (window.pair() != null) {
            pair(window.pair());
            price();
        }
        if (window.tolerance() != null) {
            tolerance(new ToleranceTables(window.tolerance(), display));
        }
        if (window.exists()) {
            out.append("WINDOW: on below ")
                    .append(display.speed(window.pair().onRadPerS()))
                    .append(", off above ")
                    .append(display.speed(window.pair().offRadPerS()))
                    .append(".\n");
        } else {
            window.noWindow().forEach(why -> paragraph("", why));
            paragraph("", "What would open a window, the best first:");
            List<String> remedies = tables.remedies();
            for (int i = 0; i < remedies.size(); i++) {
                paragraph("  " + (i + 1) + ". ", remedies.get(i));
            }
            out.append("\nNO WINDOW.\n");
        }
    }

    private void changes(List<String> changes) {
        paragraph(
                "",
                changes.isEmpty() ? "Nothing has changed since the previous window." : "Since the previous window:");
        changes.forEach(line -> paragraph("  ", line));
        out.append('\n');
    }

    private void tolerance(ToleranceTables tolerance) {
        tolerance.sentences().forEach(sentence -> paragraph("", sentence));
        out.append('\n').append(tolerance.ranking(MOST_RANKED).text(WIDTH));
    }

    private void pair(Pair pair) {
        paragraph("", WindowSentences.pair(window, display));
        bounds("Switch-on speed", pair.onBounds());
        bounds("Switch-off speed", pair.offBounds());
        out.append('\n');
    }

    private void bounds(String name, List<Bound> bounds) {
        out.append(name).append(", what it must exceed:\n");
        for (Bound bound : bounds) {
            paragraph("  " + display.speed(bound.radPerS()) + "  " + bound.name() + ": ", bound.sentence());
        }
    }

    private void price() {
        for (Proof proof : window.proofs()) {
            Price all = window.prices().stream()
                    .filter(price -> price.setting() == proof.setting())
                    .reduce((first, last) -> last)
                    .orElseThrow();
            paragraph("", WindowSentences.proof(window, proof) + " " + WindowSentences.price(all));
        }
        out.append('\n');
    }

    /** A label and a text, wrapped; following lines are indented. */
    private void paragraph(String label, String text) {
        String indent = label.startsWith(" ") ? "  " : "";
        List<String> lines = TerminalText.wrap((label.strip() + " " + text).strip(), WIDTH - indent.length(), "  ");
        lines.forEach(line -> out.append(indent).append(line).append('\n'));
    }
}
