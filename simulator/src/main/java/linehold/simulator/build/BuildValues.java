package linehold.simulator.build;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/** The values of one build file by key, each with its place, checked one by one but not yet against each other. */
final class BuildValues {

    /**
     * @param oilC oil temperatures, °C, rising
     * @param values the value at each, SI
     */
    record Curve(double[] oilC, double[] values) {}

    /**
     * @param value a Double, Integer, Boolean, String, {@code List<Double>}, {@code List<LimitsSpec.Word>} or {@link Curve}, as the key's type says
     * @param text as it stands in the file, for messages
     * @param place where; null for a default
     */
    record Value(Object value, String text, YamlTree.Place place) {}

    private final String file;
    private final Map<String, Value> values = new HashMap<>();
    private final Map<String, YamlTree.Place> sections = new HashMap<>();
    private final Map<String, Spread> spreads = new HashMap<>();

    BuildValues(String file) {
        this.file = file;
    }

    void put(String path, Value value) {
        values.put(path, value);
    }

    void putSpread(Spread spread) {
        spreads.put(spread.key(), spread);
    }

    /** In the order of the keys. */
    List<Spread> spreads() {
        return FileKeys.ALL.stream()
                .map(key -> spreads.get(key.path()))
                .filter(Objects::nonNull)
                .toList();
    }

    /** One sentence for each value in the file that lies outside its usual range. */
    List<String> warnings() {
        List<String> warnings = new ArrayList<>();
        for (FileKey key : FileKeys.ALL) {
            Value value = values.get(key.path());
            boolean typed = value != null && value.place() != null;
            if (key.usual() != null && typed && !key.usual().has(((Number) value.value()).doubleValue())) {
                String found = key.path() + ": found '" + value.text() + "', usual is "
                        + key.usual().text();
                warnings.add(YamlTree.error(file, value.place(), found).getMessage());
            }
        }
        return warnings;
    }

    /** The values alone, to be replaced; the copy has no spreads and no places of sections. */
    BuildValues copy() {
        BuildValues copy = new BuildValues(file);
        copy.values.putAll(values);
        return copy;
    }

    void replace(String path, double si) {
        Value nominal = values.get(path);
        values.put(path, new Value(si, nominal.text(), nominal.place()));
    }

    void putSection(String path, YamlTree.Place place) {
        sections.put(path, place);
    }

    Optional<Value> find(String path) {
        return Optional.ofNullable(values.get(path));
    }

    boolean has(BuildKey key) {
        return values.containsKey(key.path());
    }

    /** A quantity in SI. */
    double si(BuildKey key) {
        return (Double) value(key).value();
    }

    /** The lowest that a quantity is in any car, SI. */
    double low(BuildKey key) {
        Spread spread = spreads.get(key.path());
        return spread == null ? si(key) : spread.low();
    }

    /** The highest that a quantity is in any car, SI. */
    double high(BuildKey key) {
        Spread spread = spreads.get(key.path());
        return spread == null ? si(key) : spread.high();
    }

    int count(BuildKey key) {
        return (Integer) value(key).value();
    }

    boolean flag(BuildKey key) {
        return (Boolean) value(key).value();
    }

    String text(BuildKey key) {
        return (String) value(key).value();
    }

    @SuppressWarnings("unchecked")
    List<Double> list(BuildKey key) {
        return (List<Double>) value(key).value();
    }

    @SuppressWarnings("unchecked")
    List<LimitsSpec.Word> words(BuildKey key) {
        return (List<LimitsSpec.Word>) value(key).value();
    }

    private Value value(BuildKey key) {
        return find(key.path()).orElseThrow(() -> new IllegalStateException(key.path() + " was not read"));
    }

    /** Where a key stands, else its section, else the start of the file. */
    YamlTree.Place placeOf(String path) {
        Value value = values.get(path);
        if (value != null && value.place() != null) {
            return value.place();
        }
        int dot = path.lastIndexOf('.');
        return sections.getOrDefault(dot < 0 ? "" : path.substring(0, dot), new YamlTree.Place(1, 1));
    }

    /** One sentence about a key, with its place. */
    InputException error(String path, String sentence) {
        return YamlTree.error(file, placeOf(path), path + ": " + sentence);
    }

    /** {@code line.volume '0.6 L' (line 14)}: the other key of a contradiction. */
    String mention(BuildKey key) {
        Value value = value(key);
        String where =
                value.place() == null ? "its default" : "line " + value.place().line();
        return key.path() + " '" + value.text() + "' (" + where + ")";
    }

    /** The start of a message about a key that contradicts another. */
    String found(BuildKey key) {
        Value value = value(key);
        return "found '" + value.text() + "'" + (value.place() == null ? " (its default)" : "");
    }
}
