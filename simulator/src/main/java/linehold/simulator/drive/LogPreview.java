package linehold.simulator.drive;

import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import linehold.controller.Range;
import linehold.simulator.build.Build;
import linehold.simulator.build.Gear;
import linehold.simulator.build.InputException;
import linehold.simulator.output.WholeFile;

/**
 * What becomes of a log with the columns that a person picked, before they are kept: its first rows, and the sentence with
 * which {@code prove} would refuse it.
 *
 * @param picks as asked, completed by what was found, and by the units that stand in the columns' names
 * @param columns of the log
 * @param rows the first ones below the names of the columns
 * @param rangeWords of the first rows' range column that are not known by themselves
 * @param gearWords likewise
 * @param problem found in the first rows; null where there is none
 */
public record LogPreview(
        LogPicks picks,
        List<Column> columns,
        List<Row> rows,
        List<String> rangeWords,
        List<String> gearWords,
        String problem) {
    /** So many rows are shown. */
    public static final int ROWS = 8;
    /** So many are looked through for words and for what would be refused. */
    private static final int READ_ROWS = 3000;

    private static final int MOST_WORDS = 12;

    /** A column and the first cell in it. */
    public record Column(String name, String sample) {}

    /**
     * A row as it is read.
     *
     * @param line in the file
     * @param numbers by field, in SI units (°C); an empty cell is not there
     * @param words by field
     * @param bad the field whose cell cannot be read; null where all can. What stands behind it is not there
     * @param badText what that cell says
     */
    public record Row(long line, Map<String, Double> numbers, Map<String, String> words, String bad, String badText) {}

    /** Where the mapping of a log lies. */
    public static Path mappingBeside(Path log) {
        return LogMappingReader.besideLog(log);
    }

    /** @throws InputException where there is nothing in it that could be mapped */
    public static void requireTable(Path log) {
        LogHead.of(log, LogMapping.FIND, null);
    }

    /**
     * The picks that lie beside a log, or where there are none that can be read, the obvious ones.
     *
     * @throws InputException where the log is no table
     */
    public static LogPicks picksFor(Path log) {
        Path beside = LogMappingReader.besideLog(log);
        if (Files.exists(beside)) {
            try {
                return LogPicks.of(LogMappingReader.read(beside));
            } catch (InputException e) {
                // Told where the log is refused; here a person makes a new one.
                return LogPicks.none();
            }
        }
        return LogPicks.none();
    }

    /** @throws InputException where the log is no table, or the picks make no sense beyond being incomplete */
    public static LogPreview of(Path log, LogPicks asked, Build build) {
        String mappingName = LogMappingReader.besideLog(log).getFileName().toString();
        LogMapping wanted = LogMappingReader.parsePart(mappingName, asked.yaml());
        boolean saysEncoding = asked.encoding() != null && !asked.encoding().isEmpty();
        LogHead head = LogHead.of(log, wanted.separator(), saysEncoding ? wanted.charset() : null);
        LogPicks picks = complete(asked, head);
        LogMapping mapping = LogMappingReader.parsePart(mappingName, picks.yaml());
        List<Column> columns = new ArrayList<>();
        List<String> samples = head.samples();
        for (int i = 0; i < samples.size(); i++) {
            columns.add(new Column(head.columns().get(i), samples.get(i)));
        }
        Words words = new Words();
        List<Row> rows = rows(log, mapping, head, words);
        return new LogPreview(
                picks,
                columns,
                rows,
                List.copyOf(words.ranges),
                List.copyOf(words.gears),
                problem(log, mappingName, picks, build));
    }

    private static LogPicks complete(LogPicks asked, LogHead head) {
        Map<String, LogPicks.Column> columns =
                new LinkedHashMap<>(asked.columns().isEmpty() ? LogGuess.columns(head.columns()) : asked.columns());
        for (LogField field : LogField.values()) {
            columns.computeIfPresent(
                    field.key(),
                    (key, pick) -> pick.unit() != null
                            ? pick
                            : new LogPicks.Column(pick.column(), LogGuess.unit(field, pick.column())));
        }
        Charset charset = head.charset();
        String decimal = asked.decimal() == null || asked.decimal().isEmpty() ? head.decimal() : asked.decimal();
        return new LogPicks(
                LogPicks.separatorWord(head.separator()),
                decimal,
                charset.name(),
                asked.maxGap(),
                columns,
                asked.rangeValues(),
                asked.gearValues());
    }

    private static final class Words {
        final TreeSet<String> ranges = new TreeSet<>();
        final TreeSet<String> gears = new TreeSet<>();
    }

    private static List<Row> rows(Path log, LogMapping mapping, LogHead head, Words words) {
        LogHeader header = LogHeader.at(log, mapping, head);
        List<Row> rows = new ArrayList<>();
        try (LogLines lines = new LogLines(log, mapping, header, head.line() + 1)) {
            LogCells cells = lines.next();
            for (int read = 0; cells != null && read < READ_ROWS; read++, cells = lines.next()) {
                if (rows.size() < ROWS) {
                    rows.add(row(cells));
                }
                if (cells.badField == LogField.RANGE && words.ranges.size() < MOST_WORDS) {
                    words.ranges.add(cells.badText);
                } else if (cells.badField == LogField.GEAR && words.gears.size() < MOST_WORDS) {
                    words.gears.add(cells.badText);
                }
            }
        }
        return rows;
    }

    private static Row row(LogCells cells) {
        Map<String, Double> numbers = new LinkedHashMap<>();
        Map<String, String> words = new LinkedHashMap<>();
        for (LogField field : LogField.values()) {
            double value = cells.value[field.ordinal()];
            if (Double.isNaN(value)) {
                continue;
            }
            switch (field) {
                case RANGE ->
                    words.put(field.key(), Range.values()[(int) value].name().substring(0, 1));
                case GEAR -> words.put(field.key(), DriveCsv.word(Gear.values()[(int) value]));
                case BRAKE, KEY -> words.put(field.key(), value != 0 ? "on" : "off");
                case TIME, MOTOR_SPEED, ROAD_SPEED, MOTOR_TORQUE, OIL_TEMPERATURE, BUS_VOLTAGE ->
                    numbers.put(field.key(), value);
            }
        }
        String bad = cells.badField == null ? null : cells.badField.key();
        return new Row(cells.line, numbers, words, bad, cells.badText);
    }

    private static String problem(Path log, String mappingName, LogPicks picks, Build build) {
        try {
            LogDrive drive = LogDrive.of(log, LogMappingReader.parse(mappingName, picks.yaml()), build);
            try (DriveReader reader = drive.open()) {
                DriveSample row = new DriveSample();
                for (int read = 0; read < READ_ROWS && reader.read(row); read++) {}
            }
            return null;
        } catch (InputException e) {
            return e.getMessage();
        }
    }

    /**
     * Writes the picks beside the log, where {@code prove} finds them.
     *
     * @throws InputException where they make no mapping, or it cannot be written
     */
    public static void keep(Path log, LogPicks picks) {
        Path beside = LogMappingReader.besideLog(log);
        String text = picks.yaml();
        LogMappingReader.parse(beside.getFileName().toString(), text);
        WholeFile.writeText(beside, text);
    }
}
