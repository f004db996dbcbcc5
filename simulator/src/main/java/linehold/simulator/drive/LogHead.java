package linehold.simulator.drive;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import linehold.simulator.build.InputException;

/**
 * The first lines of a log before anybody has said what its columns hold: cells as text, below the line that names them.
 *
 * @param line number of the line that names the columns
 * @param columns their names
 * @param rows the lines below it as text
 */
record LogHead(char separator, Charset charset, long line, List<String> columns, List<List<String>> rows) {
    private static final int ROWS = 20;
    private static final int GUESS_BYTES = 1 << 16;
    private static final List<Character> SEPARATORS = List.of(',', ';', '\t', '|');

    private record Line(long number, List<String> cells) {}

    /** What is not said ({@link LogMapping#FIND}, null) is found: the separator that makes most cells numbers. */
    static LogHead of(Path file, char separator, Charset charset) {
        Charset text = charset == null ? charsetOf(file) : charset;
        LogHead best = null;
        for (char one : separator == LogMapping.FIND ? SEPARATORS : List.of(separator)) {
            LogHead head = find(file, one, text);
            if (head != null && head.numberShare() > (best == null ? 0 : best.numberShare())) {
                best = head;
            }
        }
        if (best == null) {
            throw new InputException(
                    file.getFileName() + ": no line that names columns found in the first " + LogHeader.LOOK_AHEAD_LINES
                            + " lines, expected lines of cells, names in one of them and numbers below");
        }
        return best;
    }

    /** The mark between whole and broken part where only one of them is used and has to be said. */
    String decimal() {
        boolean comma = separator != ','
                && separator != ';'
                && rows.stream().flatMap(List::stream).anyMatch(cell -> cell.matches("[+-]?[0-9]+,[0-9]+"));
        return comma ? "," : null;
    }

    /** A cell of each column to show what it holds: the first that is not empty. */
    List<String> samples() {
        List<String> samples = new ArrayList<>();
        for (int i = 0; i < columns.size(); i++) {
            int column = i;
            samples.add(rows.stream()
                    .filter(row -> row.stream().anyMatch(LogHead::isNumber))
                    .filter(row -> column < row.size() && !row.get(column).isEmpty())
                    .map(row -> row.get(column))
                    .findFirst()
                    .orElse(""));
        }
        return samples;
    }

    private double numberShare() {
        long cells = rows.stream().mapToLong(List::size).sum();
        long numbers =
                rows.stream().flatMap(List::stream).filter(LogHead::isNumber).count();
        return cells == 0 ? 0 : (double) numbers / cells;
    }

    private static boolean isNumber(String cell) {
        return cell.matches("[+-]?([0-9]+([.,][0-9]*)?|[.,][0-9]+)([eE][+-]?[0-9]+)?");
    }

    private static LogHead find(Path file, char separator, Charset charset) {
        List<Line> lines = lines(file, separator, charset);
        Map<Integer, Integer> widths = new HashMap<>();
        lines.forEach(line -> widths.merge(line.cells.size(), 1, Integer::sum));
        int usual = widths.keySet().stream()
                .filter(width -> width > 1)
                .max(Comparator.<Integer>comparingInt(widths::get).thenComparing(Comparator.naturalOrder()))
                .orElse(0);
        for (int i = 0; i < lines.size(); i++) {
            Line line = lines.get(i);
            boolean names = line.number <= LogHeader.LOOK_AHEAD_LINES
                    && line.cells.size() == usual
                    && line.cells.stream().noneMatch(LogHead::isNumber)
                    && line.cells.stream().filter(cell -> !cell.isEmpty()).count() > 1;
            if (names) {
                List<List<String>> rows = lines.subList(i + 1, Math.min(lines.size(), i + 1 + ROWS)).stream()
                        .map(Line::cells)
                        .toList();
                return new LogHead(separator, charset, line.number, line.cells, rows);
            }
        }
        return null;
    }

    private static List<Line> lines(Path file, char separator, Charset charset) {
        List<Line> lines = new ArrayList<>();
        try (CsvReader<CsvRecord> csv = LogHeader.settings(separator).ofCsvRecord(file, charset)) {
            for (CsvRecord one : csv) {
                if (one.getStartingLineNumber() > LogHeader.LOOK_AHEAD_LINES + ROWS) {
                    break;
                }
                if (!one.isComment() && !one.getFields().stream().allMatch(String::isBlank)) {
                    lines.add(new Line(
                            one.getStartingLineNumber(),
                            one.getFields().stream().map(String::strip).toList()));
                }
            }
        } catch (CsvParseException e) {
            // What came before it may do.
            return lines;
        } catch (IOException | UncheckedIOException e) {
            throw new InputException(file.getFileName() + ": cannot be read: " + e.getMessage(), e);
        }
        return lines;
    }

    /** UTF-8, unless the first part of the file is none. */
    private static Charset charsetOf(Path file) {
        byte[] bytes;
        try (InputStream in = Files.newInputStream(file)) {
            bytes = in.readNBytes(GUESS_BYTES);
        } catch (IOException e) {
            throw new InputException(file.getFileName() + ": cannot be read: " + e.getMessage(), e);
        }
        // Cut within a letter it is still UTF-8: the end of the input is not told.
        CoderResult result = StandardCharsets.UTF_8
                .newDecoder()
                .decode(ByteBuffer.wrap(bytes), CharBuffer.allocate(bytes.length + 1), false);
        return result.isError() ? Charset.forName("windows-1252") : StandardCharsets.UTF_8;
    }
}
