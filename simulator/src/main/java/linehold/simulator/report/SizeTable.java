package linehold.simulator.report;

import java.util.List;
import java.util.Locale;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.size.SizeLine;
import linehold.simulator.size.SizeSheet;
import linehold.simulator.size.SizeVerdict;
import linehold.simulator.size.Topic;

/** The sizing sheet for a terminal, by topic, at most {@value #WIDTH} columns wide. Colour only adds to words. */
public final class SizeTable {
    static final int WIDTH = 100;
    private static final int TITLE = 53;
    private static final int RESULT = 14;
    private static final int LIMIT = 15;
    /** How much result and limit take from the title where they speak two units. */
    private static final int WIDER = 6;

    private final SizeSheet sheet;
    private final UnitSystem units;
    private final Ink ink;
    private final StringBuilder out = new StringBuilder();

    private SizeTable(SizeSheet sheet, UnitSystem units, boolean colour) {
        this.sheet = sheet;
        this.units = units;
        this.ink = new Ink(colour);
    }

    /**
     * @param earlier what to compare with; null for nothing
     * @param colour whether the text goes to a terminal that shows colour
     * @return lines, each ended by a line feed
     */
    public static String of(SizeSheet sheet, EarlierSheet earlier, UnitSystem units, boolean colour) {
        SizeTable table = new SizeTable(sheet, units, colour);
        table.paragraph(
                "Sizing sheet of build " + sheet.build().name() + "; formulas, inputs and sources are in the report.");
        for (Topic topic : Topic.values()) {
            table.topic(topic);
        }
        if (earlier != null) {
            table.changes(earlier);
        }
        table.end();
        return table.out.toString();
    }

    private void topic(Topic topic) {
        out.append('\n').append(topic.title()).append('\n');
        sheet.of(topic).forEach(this::line);
    }

    private void line(SizeLine line) {
        String title = "  " + line.title();
        if (line.verdict() == SizeVerdict.NOT_GIVEN) {
            paragraph(title + " – not given: " + String.join(", ", line.missing()));
            return;
        }
        String result = line.resultText(units);
        String limit = line.limitText(units);
        boolean wide = TerminalText.width(result) > RESULT || TerminalText.width(limit) > LIMIT;
        StringBuilder row = new StringBuilder(TerminalText.fit(title, wide ? TITLE - WIDER - WIDER : TITLE));
        row.append(TerminalText.padLeft(result, wide ? RESULT + WIDER : RESULT)).append("  ");
        row.append(TerminalText.padRight(limit, wide ? LIMIT + WIDER : LIMIT)).append(' ');
        out.append(row).append(ink(line.verdict(), line.verdict().text())).append('\n');
    }

    private void changes(EarlierSheet earlier) {
        List<EarlierSheet.Change> changes = earlier.changes(sheet, units);
        out.append('\n');
        if (changes.isEmpty()) {
            paragraph("Nothing changed against the earlier sheet of build " + earlier.build() + ".");
            return;
        }
        paragraph("Changed against the earlier sheet of build " + earlier.build() + " (the other lines did not):");
        for (EarlierSheet.Change change : changes) {
            paragraph("  " + change.title() + ": " + change.before() + " → " + change.now());
        }
    }

    private void end() {
        out.append('\n');
        paragraph(
                "Caution: sizes are a model's answer. Fuse the supply at the battery for its cable. Local codes, makers'"
                        + " ratings and licensed practice prevail.");
        SizeVerdict worst = sheet.enough()
                ? sheet.count(SizeVerdict.TIGHT) > 0 ? SizeVerdict.TIGHT : SizeVerdict.OK
                : SizeVerdict.NOT_ENOUGH;
        out.append(ink(worst, tally(sheet))).append('\n');
    }

    /** {@code ENOUGH: 30 ok, 4 tight, 0 not enough; 12 for information, 0 not given.} */
    static String tally(SizeSheet sheet) {
        return String.format(
                Locale.ROOT,
                "%s: %d ok, %d tight, %d not enough; %d for information, %d not given.",
                sheet.enough() ? "ENOUGH" : "NOT ENOUGH",
                sheet.count(SizeVerdict.OK),
                sheet.count(SizeVerdict.TIGHT),
                sheet.count(SizeVerdict.NOT_ENOUGH),
                sheet.count(SizeVerdict.INFORMATION),
                sheet.count(SizeVerdict.NOT_GIVEN));
    }

    private String ink(SizeVerdict verdict, String text) {
        return switch (verdict) {
            case OK -> ink.good(text);
            case NOT_ENOUGH -> ink.bad(text);
            case TIGHT, INFORMATION, NOT_GIVEN -> text;
        };
    }

    /** Wrapped; following lines are indented. The first line keeps its own indent. */
    private void paragraph(String text) {
        String indent = text.startsWith("  ") ? "  " : "";
        TerminalText.wrap(text.strip(), WIDTH - indent.length(), "  ")
                .forEach(line -> out.append(indent).append(line).append('\n'));
    }
}
