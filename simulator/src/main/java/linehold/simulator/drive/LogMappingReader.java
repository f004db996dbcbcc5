package linehold.simulator.drive;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import linehold.controller.Range;
import linehold.simulator.build.Gear;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;
import linehold.simulator.build.Unit;
import linehold.simulator.drive.LogMapping.Column;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;

/** Reads the small YAML file beside a log that says what its columns hold. */
final class LogMappingReader {
    private static final String KEYS = "separator, decimal, encoding, max-gap, columns, range-values or gear-values";

    private final String fileName;
    private char separator = LogMapping.FIND;
    private char decimal = LogMapping.FIND;
    private Charset charset = StandardCharsets.UTF_8;
    private double maxGapS = LogMapping.DEFAULT_MAX_GAP_S;
    private final Map<LogField, Column> columns = new EnumMap<>(LogField.class);
    private final Map<String, Range> rangeWords = new HashMap<>(LogMapping.usualRangeWords());
    private final Map<String, Gear> gearWords = new HashMap<>(LogMapping.usualGearWords());

    private LogMappingReader(String fileName) {
        this.fileName = fileName;
    }

    /** Where the mapping of a log is looked for: {@code mylog.map.yaml} beside {@code mylog.csv}. */
    static Path besideLog(Path log) {
        return log.resolveSibling(LogDrive.baseName(log) + ".map.yaml");
    }

    static LogMapping read(Path file) {
        String name = file.getFileName().toString();
        try {
            return parse(name, Files.readString(file));
        } catch (IOException e) {
            throw new InputException(name + ": cannot be read as a text file in UTF-8: " + e.getMessage(), e);
        }
    }

    static LogMapping parse(String fileName, String text) {
        LogMappingReader reader = new LogMappingReader(fileName);
        reader.readText(text);
        reader.requireTimeAndSpeed();
        return reader.result();
    }

    /** The same for a mapping that is still being made: time and speed may not be there yet. */
    static LogMapping parsePart(String fileName, String text) {
        LogMappingReader reader = new LogMappingReader(fileName);
        reader.readText(text);
        return reader.result();
    }

    private void readText(String text) {
        Optional<Node> root;
        try {
            LoadSettings settings = LoadSettings.builder()
                    .setLabel(fileName)
                    .setAllowDuplicateKeys(false)
                    .build();
            root = new Compose(settings).composeString(text);
        } catch (MarkedYamlEngineException e) {
            String where = e.getProblemMark().map(LogMappingReader::position).orElse("");
            throw new InputException(fileName + where + ": not valid YAML: " + e.getProblem(), e);
        } catch (YamlEngineException e) {
            throw new InputException(fileName + ": not valid YAML: " + e.getMessage(), e);
        }
        readRoot(root.orElseThrow(
                () -> new InputException(fileName + ": is empty, expected columns with time and a speed")));
    }

    private void readRoot(Node root) {
        for (NodeTuple entry : entries(root, "a mapping with " + KEYS)) {
            String key = key(entry);
            Node value = entry.getValueNode();
            switch (key) {
                case "separator" -> separator = separator(value);
                case "decimal" -> decimal = decimal(value);
                case "encoding" -> charset = charset(value);
                case "max-gap" -> maxGapS = maxGapS(value);
                case "columns" -> readColumns(value);
                case "range-values" -> readWords(value, rangeWords, LogMapping.usualRangeWords(), LogField.RANGE);
                case "gear-values" -> readWords(value, gearWords, LogMapping.usualGearWords(), LogField.GEAR);
                default -> throw fault(entry.getKeyNode(), "unknown key \"" + key + "\", expected " + KEYS);
            }
        }
    }

    private void requireTimeAndSpeed() {
        if (!columns.containsKey(LogField.TIME)) {
            throw new InputException(fileName + ": columns has no time, expected time and motor-speed or road-speed");
        }
        if (!columns.containsKey(LogField.MOTOR_SPEED) && !columns.containsKey(LogField.ROAD_SPEED)) {
            throw new InputException(fileName + ": columns has no speed, expected motor-speed or road-speed");
        }
    }

    private LogMapping result() {
        if (separator != LogMapping.FIND && separator == decimal) {
            throw new InputException(
                    fileName + ": separator and decimal are both \"" + separator + "\", expected two different marks");
        }
        return new LogMapping(separator, decimal, charset, maxGapS, columns, rangeWords, gearWords);
    }

    private void readColumns(Node node) {
        for (NodeTuple entry : entries(node, "a mapping from quantities to columns")) {
            String key = key(entry);
            LogField field = Arrays.stream(LogField.values())
                    .filter(f -> f.key().equals(key))
                    .findFirst()
                    .orElseThrow(() -> fault(
                            entry.getKeyNode(),
                            "unknown column \"" + key + "\", expected "
                                    + Arrays.stream(LogField.values())
                                            .map(LogField::key)
                                            .collect(Collectors.joining(", "))));
            columns.put(field, column(field, entry.getValueNode()));
        }
    }

    private Column column(LogField field, Node node) {
        if (node instanceof ScalarNode) {
            return new Column(text(node), LogMapping.defaultUnit(field));
        }
        String header = null;
        Unit unit = LogMapping.defaultUnit(field);
        for (NodeTuple entry : entries(node, "a column name, or column and unit")) {
            switch (key(entry)) {
                case "column" -> header = text(entry.getValueNode());
                case "unit" -> unit = unit(field, entry.getValueNode());
                default ->
                    throw fault(entry.getKeyNode(), "unknown key \"" + key(entry) + "\", expected column or unit");
            }
        }
        if (header == null) {
            throw fault(node, field.key() + " has no column, expected the name of a column of the log");
        }
        return new Column(header, unit);
    }

    private Unit unit(LogField field, Node node) {
        String label = text(node);
        if (field.isWord()) {
            throw fault(node, field.key() + " has no unit, found \"" + label + "\"");
        }
        return field.quantity()
                .unit(label)
                .orElseThrow(() -> fault(
                        node,
                        field.key() + ": unknown unit \"" + label + "\", expected one of "
                                + field.quantity().labels()));
    }

    private <T> void readWords(Node node, Map<String, T> words, Map<String, T> meanings, LogField field) {
        for (NodeTuple entry : entries(node, "a mapping from words of the log to " + field.expectedWord())) {
            String meaning = text(entry.getValueNode());
            T value = meanings.get(meaning.toLowerCase(Locale.ROOT));
            if (value == null) {
                throw fault(entry.getValueNode(), "found \"" + meaning + "\", expected " + field.expectedWord());
            }
            words.put(key(entry).strip().toLowerCase(Locale.ROOT), value);
        }
    }

    private char separator(Node node) {
        return oneOf(
                node,
                "a comma, a semicolon, a tab or a bar",
                Map.of(",", ',', ";", ';', "\t", '\t', "tab", '\t', "|", '|'));
    }

    private char decimal(Node node) {
        return oneOf(node, "a point or a comma", Map.of(".", '.', ",", ','));
    }

    private char oneOf(Node node, String expected, Map<String, Character> choices) {
        Character choice = choices.get(text(node));
        if (choice == null) {
            throw fault(node, "found \"" + text(node) + "\", expected " + expected);
        }
        return choice;
    }

    private Charset charset(Node node) {
        Function<String, Charset> find = name -> {
            try {
                return Charset.forName(name);
            } catch (IllegalArgumentException e) {
                throw fault(
                        node, "unknown encoding \"" + name + "\", expected one like UTF-8, UTF-16LE or windows-1252");
            }
        };
        return find.apply(text(node));
    }

    private double maxGapS(Node node) {
        double seconds = Quantities.parse(text(node), Quantity.TIME).orElse(Double.NaN);
        // Labels are needed: a bare "2" has no unit and is no time.
        if (!(seconds > 0 && seconds <= 60)) {
            throw fault(node, "max-gap: found \"" + text(node) + "\", expected a time above 0 s up to 60 s, like 2 s");
        }
        return seconds;
    }

    private Iterable<NodeTuple> entries(Node node, String expected) {
        if (node instanceof MappingNode mapping) {
            Set<String> keys = new HashSet<>();
            for (NodeTuple entry : mapping.getValue()) {
                if (!keys.add(key(entry))) {
                    throw fault(entry.getKeyNode(), "\"" + key(entry) + "\" stands here twice, expected once");
                }
            }
            return mapping.getValue();
        }
        throw fault(node, "expected " + expected);
    }

    private String key(NodeTuple entry) {
        return text(entry.getKeyNode());
    }

    private String text(Node node) {
        if (node instanceof ScalarNode scalar) {
            return scalar.getValue();
        }
        throw fault(node, "expected a single value");
    }

    private InputException fault(Node node, String problem) {
        return new InputException(
                fileName + node.getStartMark().map(LogMappingReader::position).orElse("") + ": " + problem);
    }

    private static String position(Mark mark) {
        return ":" + (mark.getLine() + 1) + ":" + (mark.getColumn() + 1);
    }
}
