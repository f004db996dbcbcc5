package linehold.simulator.drive;

import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import de.siegmar.fastcsv.reader.RecordType;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;

/**
 * The mapped cells of one line of a log, as numbers. The CSV library hands over each cell as characters; numbers are read
 * from them in place, words are looked up once and remembered. The one instance is filled again for every line.
 */
final class LogCells extends AbstractBaseCsvCallbackHandler<LogCells> {
    /** A column that is not mapped. */
    private static final int SKIP = -1;

    private final int[] fieldOfColumn;
    private final double[] factor = new double[LogField.COUNT];
    private final double[] zero = new double[LogField.COUNT];
    private final double[] least = new double[LogField.COUNT];
    private final double[] most = new double[LogField.COUNT];
    private final char mark;
    private final char otherMark;
    private final Map<String, Integer>[] words;
    private final char[][] lastWord = new char[LogField.COUNT][];
    private final int[] lastCode = new int[LogField.COUNT];

    /** Numbers in SI units, codes of words; NaN where the cell is empty or missing. */
    final double[] value = new double[LogField.COUNT];

    long line;
    RecordType type = RecordType.DATA;
    /** The first field whose cell is no such thing; null where all cells are good. */
    LogField badField;
    /** What the bad cell says. */
    String badText;

    LogCells(LogHeader header, LogMapping mapping) {
        this.fieldOfColumn = header.fieldOfColumn();
        this.mark = header.decimal();
        this.otherMark = header.otherDecimal();
        this.words = wordTables(mapping);
        for (LogField field : LogField.values()) {
            LogMapping.Column column = mapping.columns().get(field);
            if (column == null || field.isWord()) {
                continue;
            }
            int f = field.ordinal();
            factor[f] = column.unit().factor().doubleValue();
            zero[f] = column.unit().zero().doubleValue();
            least[f] = LogMapping.defaultUnit(field).toSi(field.least());
            most[f] = LogMapping.defaultUnit(field).toSi(field.most());
        }
    }

    @SuppressWarnings({"unchecked", "rawtypes"})
    private static Map<String, Integer>[] wordTables(LogMapping mapping) {
        Map<String, Integer>[] tables = new Map[LogField.COUNT];
        Map<String, Integer> ranges = new HashMap<>();
        mapping.rangeWords().forEach((word, range) -> ranges.put(word, range.ordinal()));
        tables[LogField.RANGE.ordinal()] = ranges;
        Map<String, Integer> gears = new HashMap<>();
        mapping.gearWords().forEach((word, gear) -> gears.put(word, gear.ordinal()));
        tables[LogField.GEAR.ordinal()] = gears;
        Map<String, Integer> switches =
                Map.of("0", 0, "off", 0, "false", 0, "no", 0, "0.0", 0, "1", 1, "on", 1, "true", 1, "yes", 1, "1.0", 1);
        tables[LogField.BRAKE.ordinal()] = switches;
        tables[LogField.KEY.ordinal()] = switches;
        return tables;
    }

    @Override
    protected void handleBegin(long startingLineNumber) {
        line = startingLineNumber;
        type = RecordType.DATA;
        badField = null;
        badText = null;
        Arrays.fill(value, Double.NaN);
    }

    @Override
    protected void handleComment(char[] buffer, int offset, int length) {
        type = RecordType.COMMENT;
    }

    @Override
    protected void handleEmpty() {
        type = RecordType.EMPTY;
    }

    @Override
    protected void handleField(int column, char[] buffer, int offset, int length, boolean quoted) {
        int f = column < fieldOfColumn.length ? fieldOfColumn[column] : SKIP;
        if (f == SKIP || badField != null) {
            return;
        }
        int start = offset;
        int end = offset + length;
        while (start < end && isBlank(buffer[start])) {
            start++;
        }
        while (end > start && isBlank(buffer[end - 1])) {
            end--;
        }
        if (start == end || isMissing(buffer, start, end - start)) {
            return;
        }
        double read = words[f] == null ? number(f, buffer, start, end - start) : word(f, buffer, start, end - start);
        if (Double.isNaN(read)) {
            badField = LogField.values()[f];
            badText = new String(buffer, start, Math.min(end - start, 40));
        }
        value[f] = read;
    }

    private double number(int f, char[] buffer, int start, int length) {
        double si = (Decimals.parse(buffer, start, length, mark, otherMark) - zero[f]) * factor[f];
        return si >= least[f] && si <= most[f] ? si : Double.NaN;
    }

    private double word(int f, char[] buffer, int start, int length) {
        char[] last = lastWord[f];
        if (last != null && Arrays.equals(last, 0, last.length, buffer, start, start + length)) {
            return lastCode[f];
        }
        Integer code = words[f].get(new String(buffer, start, length).toLowerCase(Locale.ROOT));
        if (code == null) {
            return Double.NaN;
        }
        lastWord[f] = Arrays.copyOfRange(buffer, start, start + length);
        lastCode[f] = code;
        return code;
    }

    /** Loggers write NaN where a channel is silent. */
    private static boolean isMissing(char[] buffer, int start, int length) {
        return length == 3
                && (buffer[start] | 32) == 'n'
                && (buffer[start + 1] | 32) == 'a'
                && (buffer[start + 2] | 32) == 'n';
    }

    private static boolean isBlank(char c) {
        return c == ' ' || c == '\t' || c == '\u00a0';
    }

    @Override
    protected LogCells buildRecord() {
        return this;
    }
}
