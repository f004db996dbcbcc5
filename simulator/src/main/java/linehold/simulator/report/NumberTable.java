package linehold.simulator.report;

import java.util.ArrayList;
import java.util.List;

/**
 * A table that terminal and page both show: rows of a name and of numbers as text.
 *
 * @param title what it shows
 * @param note a sentence on how to read it; empty for none
 * @param head names of the columns, the first one that of the row names
 * @param rows one text per column
 */
record NumberTable(String title, String note, List<String> head, List<List<String>> rows) {
    static final class Builder {
        private final String title;
        private final String note;
        private final List<String> head;
        private final List<List<String>> rows = new ArrayList<>();

        Builder(String title, String note, List<String> head) {
            this.title = title;
            this.note = note;
            this.head = List.copyOf(head);
        }

        Builder row(String name, List<String> cells) {
            List<String> row = new ArrayList<>();
            row.add(name);
            row.addAll(cells);
            if (row.size() != head.size()) {
                throw new IllegalArgumentException(
                        title + ": " + row.size() + " cells under " + head.size() + " heads");
            }
            rows.add(List.copyOf(row));
            return this;
        }

        NumberTable build() {
            return new NumberTable(title, note, head, List.copyOf(rows));
        }
    }

    /** As text: names left, numbers right. */
    String text(int width) {
        StringBuilder out = new StringBuilder();
        TerminalText.wrap(note.isEmpty() ? title : title + ". " + note, width, "  ")
                .forEach(line -> out.append(line).append('\n'));
        int[] widths = new int[head.size()];
        for (int i = 0; i < widths.length; i++) {
            int column = i;
            widths[i] = Math.max(
                    TerminalText.width(head.get(i)),
                    rows.stream()
                            .mapToInt(row -> TerminalText.width(row.get(column)))
                            .max()
                            .orElse(0));
        }
        line(out, head, widths);
        rows.forEach(row -> line(out, row, widths));
        return out.append('\n').toString();
    }

    private static void line(StringBuilder out, List<String> cells, int[] widths) {
        StringBuilder line = new StringBuilder("  " + TerminalText.padRight(cells.get(0), widths[0]));
        for (int i = 1; i < widths.length; i++) {
            line.append("  ").append(TerminalText.padLeft(cells.get(i), widths[i]));
        }
        out.append(line.toString().stripTrailing()).append('\n');
    }

    /** As an HTML table that scrolls by itself. */
    void write(Markup html) {
        html.open("div", "class", "scroll numbers", "tabindex", "0", "role", "group", "aria-label", title);
        html.open("table", "aria-label", title).open("thead").open("tr");
        head.forEach(name -> html.element("th", name, "scope", "col"));
        html.close().close().open("tbody").line();
        for (List<String> row : rows) {
            html.open("tr").element("th", row.get(0), "scope", "row");
            row.stream().skip(1).forEach(cell -> html.element("td", cell, "class", "n"));
            html.close().line();
        }
        html.close().close().close().line();
    }
}
