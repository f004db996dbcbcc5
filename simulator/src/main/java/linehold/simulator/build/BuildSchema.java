package linehold.simulator.build;

import java.util.List;
import java.util.stream.Collectors;
import tools.jackson.core.util.DefaultIndenter;
import tools.jackson.core.util.DefaultPrettyPrinter;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * The JSON Schema (draft 2020-12) of the build file, from the table of keys: an editor completes keys, shows their
 * meaning, and checks words and units. Bounds of quantities with units and contradictions between keys are beyond a
 * schema; the program checks those.
 */
final class BuildSchema {
    private static final String UNSIGNED = "([0-9]+(\\.[0-9]*)?|\\.[0-9]+)([eE][+-]?[0-9]{1,3})?";
    private static final String NUMBER = "[+\\-\u2212]?" + UNSIGNED;
    private static final String SPACE = "[ \u00a0\u202f]*";

    private BuildSchema() {}

    /** The schema as pretty JSON. */
    static String text() {
        ObjectNode root = object();
        root.put("$schema", "https://json-schema.org/draft/2020-12/schema");
        root.put("title", "linehold build file");
        root.put(
                "description",
                "One car: oil, pumps, hose, relay, wiring, clutches, gears, sensors, limits, calibration.");
        fill(root, "");
        DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
        DefaultPrettyPrinter printer =
                new DefaultPrettyPrinter().withObjectIndenter(indenter).withArrayIndenter(indenter);
        return JsonMapper.builder()
                        .defaultPrettyPrinter(printer)
                        .build()
                        .writerWithDefaultPrettyPrinter()
                        .writeValueAsString(root)
                + "\n";
    }

    private static ObjectNode object() {
        return JsonNodeFactory.instance.objectNode();
    }

    private static void fill(ObjectNode section, String path) {
        section.put("type", "object");
        section.put("additionalProperties", false);
        ObjectNode properties = section.putObject("properties");
        List<FileKey> keys =
                FileKeys.ALL.stream().filter(key -> key.section().equals(path)).toList();
        keys.forEach(key -> properties.set(key.name(), key(key)));
        ArrayNode required = JsonNodeFactory.instance.arrayNode();
        keys.stream()
                .filter(key -> key.presence() == FileKey.Presence.REQUIRED)
                .forEach(key -> required.add(key.name()));
        for (FileKeys.Section child : FileKeys.SECTIONS) {
            if (child.parent().equals(path)) {
                ObjectNode node = properties.putObject(child.name());
                node.put("description", child.meaning());
                fill(node, child.path());
                if (node.has("required")) {
                    required.add(child.name());
                }
            }
        }
        if (!required.isEmpty()) {
            section.set("required", required);
        }
    }

    private static ObjectNode key(FileKey key) {
        ObjectNode node = object();
        node.put("description", key.meaning() + bounds(key));
        switch (key.type()) {
            case QUANTITY -> quantity(node, key.quantity(), key, key.mayHaveSpread() ? spread(key.quantity()) : "");
            case COUNT -> count(node, key);
            case FLAG -> node.putArray("enum").add(true).add(false).add("yes").add("no");
            case CHOICE -> key.choices().forEach(node.putArray("enum")::add);
            case TEXT -> node.put("type", "string").put("minLength", 1).put("maxLength", FileKey.MAX_TEXT);
            case LIST -> {
                node.put("type", "array").put("minItems", 1);
                quantity(node.putObject("items"), key.quantity(), key);
            }
            case WORDS ->
                node.put("type", "array")
                        .putObject("items")
                        .put("type", "string")
                        .put("minLength", 1);
            case CURVE -> {
                ArrayNode either = node.putArray("anyOf");
                quantity(either.addObject(), key.quantity(), key);
                ObjectNode curve = either.addObject();
                curve.put("type", "object").put("minProperties", 1).put("additionalProperties", false);
                quantity(
                        curve.putObject("patternProperties").putObject(pattern(Quantity.TEMPERATURE)),
                        key.quantity(),
                        key);
            }
        }
        boolean plain =
                key.type() != FileKey.Type.LIST && key.type() != FileKey.Type.WORDS && key.type() != FileKey.Type.CURVE;
        if (key.standard() != null && plain) {
            node.set("default", plain(key, key.standard()));
        }
        if (key.type() == FileKey.Type.QUANTITY || key.type() == FileKey.Type.COUNT) {
            node.putArray("examples").add(plain(key, key.example()));
        }
        return node;
    }

    private static String bounds(FileKey key) {
        String usual = key.usual() == null
                ? ""
                : " Usually " + key.usual().leastText() + " to " + key.usual().mostText() + ".";
        return key.leastText() == null ? "" : " From " + key.leastText() + " to " + key.mostText() + "." + usual;
    }

    /** The JSON value that a YAML reader makes of what is typed. */
    private static JsonNode plain(FileKey key, String typed) {
        JsonNodeFactory json = JsonNodeFactory.instance;
        if (key.type() == FileKey.Type.FLAG) {
            return json.booleanNode(Boolean.parseBoolean(typed));
        }
        if (key.quantity() == Quantity.RATIO && !typed.endsWith("%")) {
            double number = Double.parseDouble(typed);
            return number == Math.rint(number) ? json.numberNode((int) number) : json.numberNode(number);
        }
        return json.stringNode(typed);
    }

    private static void quantity(ObjectNode node, Quantity quantity, FileKey key) {
        quantity(node, quantity, key, "");
    }

    /** @param spread what may follow the value, as a pattern */
    private static void quantity(ObjectNode node, Quantity quantity, FileKey key, String spread) {
        if (quantity == Quantity.RATIO) {
            ArrayNode either = node.putArray("anyOf");
            either.addObject().put("type", "number").put("minimum", key.least()).put("maximum", key.most());
            either.addObject().put("type", "string").put("pattern", pattern(quantity, spread));
        } else {
            node.put("type", "string").put("pattern", pattern(quantity, spread));
        }
    }

    private static void count(ObjectNode node, FileKey key) {
        if (key.quantity() == Quantity.RATIO) {
            node.put("type", "integer").put("minimum", (int) key.least()).put("maximum", (int) key.most());
        } else {
            node.put("type", "string").put("pattern", pattern(key.quantity()));
        }
    }

    /** What a person may type for a quantity, as {@link Quantities} reads it. */
    private static String pattern(Quantity quantity) {
        return pattern(quantity, "");
    }

    private static String pattern(Quantity quantity, String spread) {
        return "^" + NUMBER + SPACE + "(" + units(quantity) + ")" + spread + "$";
    }

    /** A spread behind a value, as {@link TypedSpread} reads it. */
    private static String spread(Quantity quantity) {
        String unit = quantity == Quantity.TEMPERATURE ? "" : "|%";
        return "(" + SPACE + TypedSpread.SIGN + SPACE + UNSIGNED + SPACE + "(" + units(TypedSpread.difference(quantity))
                + unit + "))?";
    }

    private static String units(Quantity quantity) {
        return quantity.units().stream().map(BuildSchema::spellings).collect(Collectors.joining("|"));
    }

    private static String spellings(Unit unit) {
        return unit.label()
                .replace("(", "\\(")
                .replace(")", "\\)")
                .replace(".", "[.·]")
                .replaceAll("(?<=[a-z])2", "[2²]")
                .replaceAll("(?<=[a-z])3", "[3³]")
                .replaceAll("(?<=[a-z])6", "[6⁶]")
                .replace("N[.·]m", "N[.·]?m")
                .replace("ohm", "(ohm|Ω)")
                .replace("°C", "(°C|degC)")
                .replace("°F", "(°F|degF)")
                .replaceAll("^L", "[Ll]")
                .replace("mL", "m[Ll]");
    }
}
