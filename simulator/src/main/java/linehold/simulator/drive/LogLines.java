package linehold.simulator.drive;

import de.siegmar.fastcsv.reader.CloseableIterator;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.RecordType;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import linehold.simulator.build.InputException;

/** The data lines of a log one by one, comments and blank lines left out and counted. */
final class LogLines implements AutoCloseable {
    private final Path file;
    private final LogMapping mapping;
    private final CsvReader<LogCells> csv;
    private final CloseableIterator<LogCells> lines;
    private long skippedLines;

    /**
     * Opens a log.
     *
     * @param firstLine number of the first line that is read; the lines before it count as skipped, but for the header
     */
    LogLines(Path file, LogMapping mapping, LogHeader header, long firstLine) {
        this.file = file;
        this.mapping = mapping;
        try {
            csv = LogHeader.settings(header.separator()).build(new LogCells(header, mapping), file, mapping.charset());
            csv.skipLines(Math.toIntExact(firstLine - 1));
            lines = csv.iterator();
        } catch (IOException | UncheckedIOException e) {
            throw unreadable(e);
        }
        skippedLines = firstLine - 2;
    }

    /** The next data line, or null; the one instance is filled again by the next call. */
    LogCells next() {
        try {
            while (lines.hasNext()) {
                LogCells cells = lines.next();
                if (cells.type == RecordType.DATA) {
                    return cells;
                }
                skippedLines++;
            }
            return null;
        } catch (CsvParseException e) {
            throw new InputException(
                    file.getFileName() + ": not readable as lines of cells (" + e.getMessage()
                            + "); expected a quote that is opened to be closed",
                    e);
        } catch (UncheckedIOException e) {
            throw unreadable(e);
        }
    }

    long skippedLines() {
        return skippedLines;
    }

    /** A line that tells nothing was left out. */
    void skip() {
        skippedLines++;
    }

    InputException fault(long line, LogField field, String found, String expected) {
        return new InputException(file.getFileName() + ", line " + line + ", column \""
                + mapping.columns().get(field).header() + "\": found \"" + found + "\", expected " + expected);
    }

    /** What a cell of a field may hold, in the units of the log. */
    String expected(LogField field) {
        if (field.isWord()) {
            return field.expectedWord();
        }
        LogMapping.Column column = mapping.columns().get(field);
        if (field == LogField.TIME) {
            return "a number in " + column.unit().label();
        }
        return "a number in " + column.unit().printed() + " between " + inUnit(column, field, field.least()) + " and "
                + inUnit(column, field, field.most());
    }

    private static String inUnit(LogMapping.Column column, LogField field, double ownValue) {
        double si = LogMapping.defaultUnit(field).toSi(ownValue);
        return String.valueOf(Math.round(column.unit().fromSi(si)));
    }

    private InputException unreadable(Exception e) {
        return new InputException(file.getFileName() + ": cannot be read: " + e.getMessage(), e);
    }

    @Override
    public void close() {
        try {
            csv.close();
        } catch (IOException e) {
            throw unreadable(e);
        }
    }
}
