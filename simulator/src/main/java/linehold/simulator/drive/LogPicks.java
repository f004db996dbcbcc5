package linehold.simulator.drive;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;
import linehold.simulator.build.Unit;
import org.snakeyaml.engine.v2.api.Dump;
import org.snakeyaml.engine.v2.api.DumpSettings;
import org.snakeyaml.engine.v2.common.FlowStyle;

/**
 * What a person picked for a log, in the words of a mapping file (docs/drives.md); what is null or empty is left out of
 * that file.
 *
 * @param separator {@code ,} {@code ;} {@code tab} or {@code |}
 * @param decimal {@code .} or {@code ,}
 * @param encoding name of a character encoding
 * @param maxGap longest step of time that is still evidence, with its unit
 * @param columns by the keys of {@link #fields}
 * @param rangeValues from words of the log to ranges
 * @param gearValues from words of the log to gears
 */
public record LogPicks(
        String separator,
        String decimal,
        String encoding,
        String maxGap,
        Map<String, Column> columns,
        Map<String, String> rangeValues,
        Map<String, String> gearValues) {

    /**
     * A column of the log.
     *
     * @param column its name
     * @param unit of its numbers; null for the one of our own format, and where it holds words
     */
    public record Column(String column, String unit) {}

    /**
     * What a column can hold.
     *
     * @param key in the mapping file
     * @param units that its numbers may have, as printed; empty where it holds words
     * @param unit the one of our own format; null where it holds words
     * @param words that a cell may hold; null where it holds numbers
     */
    public record Field(String key, List<String> units, String unit, String words) {}

    public LogPicks {
        columns = copy(columns);
        rangeValues = copy(rangeValues);
        gearValues = copy(gearValues);
    }

    /** Keeps the order, so that the same picks give the same file. */
    private static <T> Map<String, T> copy(Map<String, T> map) {
        Map<String, T> copy = new LinkedHashMap<>(map == null ? Map.of() : map);
        copy.values().removeIf(value -> value == null);
        return copy;
    }

    /** Nothing picked: all is to be found. */
    public static LogPicks none() {
        return new LogPicks(null, null, null, null, null, null, null);
    }

    /** Everything that a column can hold. */
    public static List<Field> fields() {
        return Arrays.stream(LogField.values()).map(LogPicks::field).toList();
    }

    private static Field field(LogField field) {
        return field.isWord()
                ? new Field(field.key(), List.of(), null, field.expectedWord())
                : new Field(
                        field.key(),
                        field.quantity().units().stream().map(Unit::printed).toList(),
                        LogMapping.defaultUnit(field).printed(),
                        null);
    }

    /** What a mapping file says. */
    static LogPicks of(LogMapping mapping) {
        Map<String, Column> columns = new LinkedHashMap<>();
        for (LogField field : LogField.values()) {
            LogMapping.Column column = mapping.columns().get(field);
            if (column != null) {
                String unit = column.unit() == null ? null : column.unit().printed();
                columns.put(field.key(), new Column(column.header(), unit));
            }
        }
        return new LogPicks(
                separatorWord(mapping.separator()),
                mapping.decimal() == LogMapping.FIND ? null : String.valueOf(mapping.decimal()),
                mapping.charset().name(),
                Quantities.write(mapping.maxGapS(), Quantity.TIME.unit("s").orElseThrow()),
                columns,
                added(mapping.rangeWords(), LogMapping.usualRangeWords()),
                added(mapping.gearWords(), LogMapping.usualGearWords()));
    }

    private static <T extends Enum<T>> Map<String, String> added(Map<String, T> words, Map<String, T> usual) {
        Map<String, String> added = new TreeMap<>();
        words.forEach((word, meaning) -> {
            if (usual.get(word) != meaning) {
                added.put(word, meaning.name().toLowerCase(Locale.ROOT));
            }
        });
        return added;
    }

    static String separatorWord(char separator) {
        return separator == LogMapping.FIND ? null : separator == '\t' ? "tab" : String.valueOf(separator);
    }

    /** The text of the mapping file. */
    public String yaml() {
        Map<String, Object> file = new LinkedHashMap<>();
        putIf(file, "separator", separator);
        putIf(file, "decimal", decimal);
        putIf(file, "encoding", encoding);
        putIf(file, "max-gap", maxGap);
        Map<String, Object> mapped = new LinkedHashMap<>();
        columns.forEach((field, column) -> {
            Map<String, Object> value = new LinkedHashMap<>();
            putIf(value, "column", column.column);
            putIf(value, "unit", column.unit);
            mapped.put(field, value);
        });
        file.put("columns", mapped);
        if (!rangeValues.isEmpty()) {
            file.put("range-values", rangeValues);
        }
        if (!gearValues.isEmpty()) {
            file.put("gear-values", gearValues);
        }
        DumpSettings settings =
                DumpSettings.builder().setDefaultFlowStyle(FlowStyle.BLOCK).build();
        return new Dump(settings).dumpToString(file);
    }

    private static void putIf(Map<String, Object> map, String key, String value) {
        if (value != null && !value.isEmpty()) {
            map.put(key, value);
        }
    }
}
