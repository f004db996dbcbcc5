package linehold.simulator.build;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import linehold.simulator.build.BuildValues.Curve;
import linehold.simulator.build.BuildValues.Value;
import linehold.simulator.build.YamlTree.Mapping;
import linehold.simulator.build.YamlTree.Node;
import linehold.simulator.build.YamlTree.Scalar;
import linehold.simulator.build.YamlTree.Sequence;

/** Reads a build file against the table of keys: every key known, every value of its type and within its bounds. */
final class BuildReader {
    private static final Map<String, FileKey> KEYS =
            FileKeys.ALL.stream().collect(Collectors.toUnmodifiableMap(FileKey::path, Function.identity()));

    /** A bound typed in another unit must pass whatever the conversion rounds. */
    private static final double ROUNDING = 1e-9;

    private final String file;
    private final BuildValues values;

    private BuildReader(String file) {
        this.file = file;
        this.values = new BuildValues(file);
    }

    /**
     * @param file how messages call the file
     * @throws InputException on the first fault
     */
    static BuildValues read(String file, byte[] bytes) {
        BuildReader reader = new BuildReader(file);
        Mapping root = YamlTree.read(file, bytes);
        reader.section("", root, root.place());
        for (FileKey key : FileKeys.ALL) {
            reader.complete(key);
        }
        return reader.values;
    }

    private void section(String path, Mapping mapping, YamlTree.Place place) {
        values.putSection(path, place);
        mapping.entries().forEach((name, entry) -> {
            String child = path.isEmpty() ? name : path + "." + name;
            FileKey key = KEYS.get(child);
            if (key != null) {
                values.put(child, value(key, entry.value()));
            } else if (FileKeys.SECTIONS.stream()
                    .anyMatch(section -> section.path().equals(child))) {
                subsection(child, entry);
            } else {
                throw unknown(path, name, entry.keyPlace());
            }
        });
    }

    private void subsection(String path, YamlTree.Entry entry) {
        if (entry.value() instanceof Mapping mapping) {
            section(path, mapping, entry.keyPlace());
        } else if (entry.value() instanceof Scalar scalar && scalar.text().isEmpty()) {
            values.putSection(path, entry.keyPlace()); // every key of it commented out
        } else {
            throw YamlTree.error(
                    file,
                    entry.value().place(),
                    path + ": found " + YamlTree.found(entry.value()) + ", expected keys and values below it");
        }
    }

    private void complete(FileKey key) {
        if (values.find(key.path()).isPresent()) {
            return;
        }
        switch (key.presence()) {
            case REQUIRED -> throw values.error(key.path(), "missing, expected " + key.expected());
            case DEFAULT -> {
                // a calibration key has its default in the controller
                if (!key.section().equals(FileKeys.CALIBRATION)) {
                    values.put(key.path(), standard(key));
                }
            }
            case OPTIONAL -> {
                // the part is not there
            }
        }
    }

    private Value standard(FileKey key) {
        byte[] text = ("default: " + key.standard()).getBytes(StandardCharsets.UTF_8);
        Node node = YamlTree.read(key.path(), text).entries().get("default").value();
        return new Value(value(key, node).value(), key.standard(), null);
    }

    private InputException unknown(String section, String name, YamlTree.Place place) {
        String path = section.isEmpty() ? name : section + "." + name;
        List<String> siblings = Stream.concat(
                        FileKeys.ALL.stream()
                                .filter(key -> key.section().equals(section))
                                .map(FileKey::name),
                        FileKeys.SECTIONS.stream()
                                .filter(other -> other.parent().equals(section))
                                .map(FileKeys.Section::name))
                .toList();
        Optional<String> nearest = Spelling.nearest(name, siblings);
        Optional<String> elsewhere = FileKeys.ALL.stream()
                .filter(key -> key.name().equals(name))
                .map(FileKey::path)
                .findFirst();
        String expected = elsewhere
                .or(() -> nearest)
                .map(word -> "'" + word + "'")
                .orElseGet(() -> "one of " + String.join(", ", siblings));
        return YamlTree.error(file, place, path + ": found an unknown key, expected " + expected);
    }

    private Value value(FileKey key, Node node) {
        Object value = switch (key.type()) {
            case QUANTITY -> quantity(key, node);
            case COUNT -> count(key, node);
            case FLAG -> flag(key, node);
            case CHOICE -> choice(key, node);
            case TEXT -> text(key, node);
            case LIST -> list(key, node);
            case WORDS -> words(key, node);
            case CURVE -> node instanceof Mapping mapping ? curve(key, mapping) : number(key, node);
        };
        return new Value(value, YamlTree.text(node), node.place());
    }

    private double quantity(FileKey key, Node node) {
        Optional<TypedSpread> typed = node instanceof Scalar scalar ? TypedSpread.of(scalar.text()) : Optional.empty();
        if (typed.isEmpty()) {
            return number(key, node);
        }
        if (!key.mayHaveSpread()) {
            throw error(key, node, "found " + YamlTree.found(node) + ", expected a value without a spread");
        }
        double nominal = number(key, new Scalar(typed.get().value(), false, node.place()));
        values.putSpread(spread(key, node, nominal, typed.get()));
        return nominal;
    }

    private Spread spread(FileKey key, Node node, double nominal, TypedSpread typed) {
        double off = typed.si(key.quantity(), nominal)
                .orElseThrow(() -> error(
                        key,
                        node,
                        "found the spread '" + typed.spread() + "', expected " + TypedSpread.expected(key.quantity())));
        double slack = ROUNDING * Math.max(Math.abs(key.least()), Math.abs(key.most()));
        if (nominal - off < key.least() - slack || nominal + off > key.most() + slack) {
            throw error(
                    key,
                    node,
                    "found " + YamlTree.found(node) + ", expected a spread that stays between " + key.leastText()
                            + " and " + key.mostText());
        }
        double low = Math.max(key.least(), nominal - off);
        double high = Math.min(key.most(), nominal + off);
        return new Spread(key.path(), key.quantity(), YamlTree.text(node), nominal, low, high);
    }

    private double number(FileKey key, Node node) {
        if (node instanceof Scalar scalar) {
            OptionalDouble si = Quantities.parse(scalar.text(), key.quantity());
            double slack = ROUNDING * Math.max(Math.abs(key.least()), Math.abs(key.most()));
            if (si.isPresent() && si.getAsDouble() >= key.least() - slack && si.getAsDouble() <= key.most() + slack) {
                return Math.min(key.most(), Math.max(key.least(), si.getAsDouble()));
            }
        }
        throw wrong(key, node);
    }

    private int count(FileKey key, Node node) {
        double number = number(key, node);
        if (number != Math.rint(number)) {
            throw wrong(key, node);
        }
        return (int) number;
    }

    private boolean flag(FileKey key, Node node) {
        String word = node instanceof Scalar scalar ? scalar.text().toLowerCase(Locale.ROOT) : "";
        return switch (word) {
            case "true", "yes" -> true;
            case "false", "no" -> false;
            default -> throw wrong(key, node);
        };
    }

    private String choice(FileKey key, Node node) {
        if (node instanceof Scalar scalar && key.choices().contains(scalar.text())) {
            return scalar.text();
        }
        throw wrong(key, node);
    }

    private String text(FileKey key, Node node) {
        if (node instanceof Scalar scalar
                && !scalar.text().isEmpty()
                && scalar.text().length() <= FileKey.MAX_TEXT
                && scalar.text().chars().noneMatch(Character::isISOControl)) {
            return scalar.text();
        }
        throw wrong(key, node);
    }

    private List<Double> list(FileKey key, Node node) {
        if (!(node instanceof Sequence sequence) || sequence.items().isEmpty()) {
            throw wrong(key, node);
        }
        List<Double> numbers = new ArrayList<>();
        for (Node item : sequence.items()) {
            double number = number(key, item);
            if (!numbers.isEmpty() && number <= numbers.get(numbers.size() - 1)) {
                throw wrong(key, item);
            }
            numbers.add(number);
        }
        return List.copyOf(numbers);
    }

    private List<LimitsSpec.Word> words(FileKey key, Node node) {
        if (!(node instanceof Sequence sequence)) {
            throw wrong(key, node);
        }
        List<LimitsSpec.Word> words = new ArrayList<>();
        for (Node item : sequence.items()) {
            if (!(item instanceof Scalar scalar) || scalar.text().isEmpty()) {
                throw wrong(key, item);
            }
            YamlTree.Place place = item.place();
            words.add(new LimitsSpec.Word(scalar.text(), file + ":" + place.line() + ":" + place.column()));
        }
        return List.copyOf(words);
    }

    private Curve curve(FileKey key, Mapping mapping) {
        if (mapping.entries().isEmpty()) {
            throw wrong(key, mapping);
        }
        List<Double> oilC = new ArrayList<>();
        List<Double> numbers = new ArrayList<>();
        mapping.entries().forEach((typed, entry) -> {
            OptionalDouble celsius = Quantities.parse(typed, Quantity.TEMPERATURE);
            boolean rising = celsius.isPresent()
                    && (oilC.isEmpty() || celsius.getAsDouble() > oilC.get(oilC.size() - 1))
                    && celsius.getAsDouble() >= -273.15;
            if (!rising) {
                throw wrong(key, new Scalar(typed, false, entry.keyPlace()));
            }
            oilC.add(celsius.getAsDouble());
            numbers.add(number(key, entry.value()));
        });
        return new Curve(array(oilC), array(numbers));
    }

    private static double[] array(List<Double> numbers) {
        return numbers.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private InputException wrong(FileKey key, Node node) {
        return error(key, node, "found " + YamlTree.found(node) + ", expected " + key.expected());
    }

    private InputException error(FileKey key, Node node, String sentence) {
        return YamlTree.error(file, node.place(), key.path() + ": " + sentence);
    }
}
