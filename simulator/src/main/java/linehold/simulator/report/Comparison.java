package linehold.simulator.report;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import linehold.simulator.build.Display;
import linehold.simulator.build.InputException;
import linehold.simulator.build.UnitSystem;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * What has changed between two results of the same kind, line by line: their JSON files are taken apart into single values,
 * each with a name of its own, and compared. An element of a list is known by its naming fields ({@code oil_c}, {@code
 * drive} …), so that one more or one less does not shift the others. Values are shown in a person's units by the unit at
 * the end of their name.
 */
public final class Comparison {
    /** Fields that say which element of a list it is. */
    private static final List<String> NAMING = List.of("oil_c", "bus_v", "rate_rad_per_s2", "setting", "drive", "name");

    private final Display display;
    private final Set<String> leftOut;

    private Comparison(UnitSystem units, Set<String> leftOut) {
        this.display = new Display(units);
        this.leftOut = leftOut;
    }

    /**
     * Reads a previous result, so that a bad one is refused before any work is done.
     *
     * @param mark a field that such a file has at its top level
     * @throws InputException where it is no such file
     */
    public static byte[] read(Path file, String mark) {
        String expected = "expected a file of the same command with the field '" + mark + "'";
        try {
            byte[] bytes = Files.readAllBytes(file);
            if (!JsonMapper.shared().readTree(bytes).has(mark)) {
                throw new InputException(file + ": found another kind of file, " + expected);
            }
            return bytes;
        } catch (NoSuchFileException e) {
            throw new InputException(file + ": found no such file, " + expected, e);
        } catch (IOException e) {
            throw new InputException(file + ": found a file that cannot be read, " + expected, e);
        } catch (JacksonException e) {
            throw new InputException(file + ": found text that is no JSON, " + expected, e);
        }
    }

    /**
     * @param leftOut fields that are not compared, at any depth
     * @return one line a changed value; empty where nothing has changed
     */
    public static List<String> lines(byte[] before, byte[] now, UnitSystem units, Set<String> leftOut) {
        Comparison comparison = new Comparison(units, leftOut);
        Map<String, JsonNode> old = comparison.values(before);
        Map<String, JsonNode> present = comparison.values(now);
        List<String> lines = new ArrayList<>();
        for (Map.Entry<String, JsonNode> entry : present.entrySet()) {
            JsonNode then = old.get(entry.getKey());
            if (then == null) {
                lines.add(comparison.line(entry.getKey(), "not there", entry.getValue()));
            } else if (!then.equals(entry.getValue())) {
                String shown = comparison.shown(entry.getKey(), then);
                // What reads the same is no change to a person.
                if (!shown.equals(comparison.shown(entry.getKey(), entry.getValue()))) {
                    lines.add(comparison.line(entry.getKey(), shown, entry.getValue()));
                }
            }
        }
        for (Map.Entry<String, JsonNode> entry : old.entrySet()) {
            if (!present.containsKey(entry.getKey())) {
                lines.add(name(entry.getKey()) + ": " + comparison.shown(entry.getKey(), entry.getValue())
                        + " → not there");
            }
        }
        return lines;
    }

    private String line(String path, String before, JsonNode now) {
        return name(path) + ": " + before + " → " + shown(path, now);
    }

    private Map<String, JsonNode> values(byte[] json) {
        Map<String, JsonNode> values = new LinkedHashMap<>();
        for (Map.Entry<String, JsonNode> field :
                JsonMapper.shared().readTree(json).properties()) {
            collect(field.getKey(), field.getKey(), field.getValue(), values);
        }
        return values;
    }

    private void collect(String field, String path, JsonNode node, Map<String, JsonNode> values) {
        if (leftOut.contains(field)) {
            return;
        }
        if (node.isObject()) {
            for (Map.Entry<String, JsonNode> inner : node.properties()) {
                if (!NAMING.contains(inner.getKey()) || !path.endsWith("]")) {
                    collect(inner.getKey(), path + "." + inner.getKey(), inner.getValue(), values);
                }
            }
        } else if (node.isArray()) {
            int number = 1;
            for (JsonNode element : node) {
                collect("", path + "[" + title(element, number++) + "]", element, values);
            }
        } else {
            values.put(path, node);
        }
    }

    private String title(JsonNode element, int number) {
        List<String> parts = new ArrayList<>();
        for (String field : NAMING) {
            if (element.has(field)) {
                parts.add(shown(field, element.get(field)));
            }
        }
        return parts.isEmpty() ? Integer.toString(number) : String.join(", ", parts);
    }

    /** {@code carry[120 °C].hold_rad_per_s} reads {@code carry, 120 °C, hold}. */
    private static String name(String path) {
        return path.replaceAll("_(rad_per_s2?|pa|s|w|h|v|c|per_hour)$", "")
                .replace("].", ", ")
                .replace("[", ", ")
                .replace("]", "")
                .replaceAll("\\.(?=[a-z])", ", ")
                .replace('_', ' ');
    }

    private String shown(String path, JsonNode value) {
        if (value.isNull()) {
            return "none";
        }
        if (!value.isNumber()) {
            return value.asString();
        }
        return unit(path).apply(value.doubleValue());
    }

    private Function<Double, String> unit(String path) {
        if (path.endsWith("_rad_per_s2")) {
            return display::acceleration;
        } else if (path.endsWith("_rad_per_s")) {
            return display::speed;
        } else if (path.endsWith("_pa")) {
            return display::pressure;
        } else if (path.endsWith("oil_c")) {
            return display::temperature;
        } else if (path.endsWith("_v")) {
            return volts -> Numbers.fixed(volts, 1) + " V";
        } else if (path.endsWith("_s")) {
            return seconds -> Numbers.fixed(seconds * 1e3, 1) + " ms";
        } else if (path.endsWith("_share")) {
            return share -> Numbers.fixed(100 * share, 1) + " %";
        } else if (path.endsWith("_w")) {
            return watts -> Numbers.fixed(watts, 0) + " W";
        } else if (path.endsWith("_h")) {
            return hours -> Numbers.fixed(hours, 0) + " h";
        } else {
            return number -> number == Math.rint(number) ? Numbers.fixed(number, 0) : Numbers.fixed(number, 3);
        }
    }
}
