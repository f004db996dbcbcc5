package linehold.simulator.drive;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import linehold.controller.Range;
import linehold.simulator.build.Gear;
import linehold.simulator.build.Unit;

/**
 * How to read a log: which column holds what, in which unit and in which words.
 *
 * @param separator between cells; {@link #FIND} to find it in the header line
 * @param decimal decimal mark; {@link #FIND} for a point, or either mark where semicolons separate
 * @param charset of the file where it has no byte-order mark
 * @param maxGapS longest step of time that is still evidence, s
 * @param columns the columns that are read
 * @param rangeWords what the range column says, in lower case
 * @param gearWords what the gear column says, in lower case
 */
record LogMapping(
        char separator,
        char decimal,
        Charset charset,
        double maxGapS,
        Map<LogField, Column> columns,
        Map<String, Range> rangeWords,
        Map<String, Gear> gearWords) {

    /** A column of the log: its header and the unit of its numbers (null where it holds words). */
    record Column(String header, Unit unit) {}

    static final char FIND = 0;
    static final double DEFAULT_MAX_GAP_S = 2;

    LogMapping {
        columns = Map.copyOf(columns);
        rangeWords = Map.copyOf(rangeWords);
        gearWords = Map.copyOf(gearWords);
    }

    /** The mapping of a log in our own format, which needs no mapping file. */
    static LogMapping ownFormat() {
        Map<LogField, Column> columns = new EnumMap<>(LogField.class);
        for (LogField field : LogField.values()) {
            columns.put(field, new Column(field.ownColumn(), defaultUnit(field)));
        }
        return new LogMapping(
                FIND, FIND, StandardCharsets.UTF_8, DEFAULT_MAX_GAP_S, columns, usualRangeWords(), usualGearWords());
    }

    static Unit defaultUnit(LogField field) {
        return field.isWord() ? null : field.quantity().unit(field.ownUnit()).orElseThrow();
    }

    /** Letters and names of the ranges; a mapping file adds to them. */
    static Map<String, Range> usualRangeWords() {
        Map<String, Range> words = new HashMap<>();
        for (Range range : Range.values()) {
            String word = range.name().toLowerCase(Locale.ROOT);
            words.put(word, range);
            words.put(word.substring(0, 1), range);
        }
        return words;
    }

    /** Letters, numbers and names of the gears; a mapping file adds to them. */
    static Map<String, Gear> usualGearWords() {
        Map<String, Gear> words = new HashMap<>();
        for (Gear gear : Gear.values()) {
            words.put(gear.name().toLowerCase(Locale.ROOT), gear);
        }
        words.put("n", Gear.NEUTRAL);
        words.put("0", Gear.NEUTRAL);
        words.put("1", Gear.FIRST);
        words.put("2", Gear.TOP);
        words.put("r", Gear.REVERSE);
        words.put("-1", Gear.REVERSE);
        return words;
    }
}
