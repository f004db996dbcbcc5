package linehold.simulator.drive;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import linehold.simulator.build.InputException;

/**
 * The line of a log that names its columns, and what follows from it.
 *
 * @param line its number in the file, from 1
 * @param separator between cells
 * @param decimal decimal mark
 * @param otherDecimal a second mark that is accepted too; the same where there is none
 * @param fieldOfColumn for each column the ordinal of its {@link LogField}, or -1
 * @param fields the fields that the log has
 */
record LogHeader(
        long line, char separator, char decimal, char otherDecimal, int[] fieldOfColumn, List<LogField> fields) {
    /** Within so many lines the header must come. */
    static final int LOOK_AHEAD_LINES = 200;

    private static final List<Character> SEPARATORS = List.of(',', ';', '\t', '|');

    boolean has(LogField field) {
        return fields.contains(field);
    }

    /** Finds the header of a log; with a mapping file every mapped column must be there, without one time and a speed. */
    static LogHeader find(Path file, LogMapping mapping, boolean allColumns) {
        List<Character> separators = mapping.separator() == LogMapping.FIND ? SEPARATORS : List.of(mapping.separator());
        for (char separator : separators) {
            LogHeader found = find(file, mapping, allColumns, separator);
            if (found != null) {
                return found;
            }
        }
        String expected = allColumns
                ? mapping.columns().values().stream()
                        .map(column -> "\"" + column.header() + "\"")
                        .sorted()
                        .collect(Collectors.joining(", "))
                : "time_s and motor_speed_rpm or road_speed_km_h (or a mapping file "
                        + LogMappingReader.besideLog(file).getFileName() + " beside the log)";
        throw new InputException(file.getFileName() + ": no header found in the first " + LOOK_AHEAD_LINES
                + " lines, expected one line with the columns " + expected);
    }

    private static LogHeader find(Path file, LogMapping mapping, boolean allColumns, char separator) {
        try (CsvReader<CsvRecord> csv = settings(separator).ofCsvRecord(file, mapping.charset())) {
            for (CsvRecord csvRecord : csv) {
                if (csvRecord.getStartingLineNumber() > LOOK_AHEAD_LINES) {
                    return null;
                }
                LogHeader header = headerIn(csvRecord, file, mapping, allColumns, separator);
                if (header != null) {
                    return header;
                }
            }
            return null;
        } catch (CsvParseException e) {
            // Not readable with this separator: another one may do.
            return null;
        } catch (IOException | UncheckedIOException e) {
            throw new InputException(file.getFileName() + ": cannot be read: " + e.getMessage(), e);
        }
    }

    private static LogHeader headerIn(
            CsvRecord csvRecord, Path file, LogMapping mapping, boolean allColumns, char separator) {
        LogHeader header = of(file, mapping, csvRecord.getStartingLineNumber(), csvRecord.getFields(), separator);
        boolean complete = allColumns
                ? header.fields.size() == mapping.columns().size()
                : header.has(LogField.TIME) && (header.has(LogField.MOTOR_SPEED) || header.has(LogField.ROAD_SPEED));
        return complete ? header : null;
    }

    /** The line that was found to name the columns, whatever of the mapping it has. */
    static LogHeader at(Path file, LogMapping mapping, LogHead head) {
        return of(file, mapping, head.line(), head.columns(), head.separator());
    }

    private static LogHeader of(Path file, LogMapping mapping, long line, List<String> cells, char separator) {
        List<String> names = cells.stream().map(LogHeader::plain).toList();
        int[] fieldOfColumn = new int[names.size()];
        Arrays.fill(fieldOfColumn, -1);
        List<LogField> fields = new ArrayList<>();
        for (Map.Entry<LogField, LogMapping.Column> entry : mapping.columns().entrySet()) {
            String name = plain(entry.getValue().header());
            int column = names.indexOf(name);
            if (column < 0) {
                continue;
            }
            if (column != names.lastIndexOf(name)) {
                throw new InputException(file.getFileName() + ", line " + line + ": two columns are named \""
                        + entry.getValue().header() + "\", expected one");
            }
            fieldOfColumn[column] = entry.getKey().ordinal();
            fields.add(entry.getKey());
        }
        char decimal = mapping.decimal() == LogMapping.FIND ? '.' : mapping.decimal();
        // With semicolons between the cells a comma can only be a decimal mark.
        char other = mapping.decimal() == LogMapping.FIND && separator == ';' ? ',' : decimal;
        return new LogHeader(line, separator, decimal, other, fieldOfColumn, List.copyOf(fields));
    }

    private static String plain(String name) {
        return name.strip().toLowerCase(Locale.ROOT);
    }

    /** How every reading of a log treats the file: nothing is skipped silently, a cell cannot grow without bound. */
    static CsvReader.CsvReaderBuilder settings(char separator) {
        return CsvReader.builder()
                .fieldSeparator(separator)
                .commentStrategy(CommentStrategy.READ)
                .skipEmptyLines(false)
                .allowExtraFields(true)
                .allowMissingFields(true)
                .allowExtraCharsAfterClosingQuote(true)
                .detectBomHeader(true)
                .maxBufferSize(1 << 20);
    }
}
