package linehold.rig.board;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;
import linehold.simulator.build.Spelling;
import linehold.simulator.build.YamlTree;
import linehold.simulator.build.YamlTree.Entry;
import linehold.simulator.build.YamlTree.Mapping;
import linehold.simulator.build.YamlTree.Node;
import linehold.simulator.build.YamlTree.Place;
import linehold.simulator.build.YamlTree.Scalar;

/** One section of a board file: its values, each of its type and within its bounds, or one sentence. */
final class BoardSection {
    /** A bound typed in another unit must pass whatever the conversion rounds. */
    private static final double ROUNDING = 1e-9;

    private static final int LONGEST_TEXT = 60;

    private final String file;
    private final String path;
    private final Place place;
    private final Mapping mapping;

    /**
     * @param path name of the section; empty for the top level
     * @param place where its name stands
     */
    BoardSection(String file, String path, Place place, Mapping mapping) {
        this.file = file;
        this.path = path;
        this.place = place;
        this.mapping = mapping;
    }

    /** Refuses every key but these. */
    void only(List<BoardKey> keys) {
        onlyWords(keys.stream().map(BoardKey::word).toList());
    }

    void onlyWords(List<String> words) {
        mapping.entries().forEach((word, entry) -> {
            if (!words.contains(word)) {
                String expected = Spelling.nearest(word, words)
                        .map(near -> "'" + near + "'")
                        .orElse("one of " + String.join(", ", words));
                throw YamlTree.error(
                        file, entry.keyPlace(), dotted(word) + ": found an unknown key, expected " + expected);
            }
        });
    }

    boolean has(BoardKey key) {
        return mapping.entries().containsKey(key.word());
    }

    String text(BoardKey key) {
        String text = scalar(key);
        if (text.isEmpty() || text.length() > LONGEST_TEXT || text.chars().anyMatch(Character::isISOControl)) {
            throw wrong(key, null);
        }
        return text;
    }

    String choice(BoardKey key) {
        String word = scalar(key);
        if (!key.choices().contains(word)) {
            throw wrong(key, null);
        }
        return word;
    }

    int count(BoardKey key) {
        double number = quantity(key);
        if (number != Math.rint(number)) {
            throw wrong(key, null);
        }
        return (int) number;
    }

    /** SI. */
    double quantity(BoardKey key) {
        return bounded(key, scalar(key)).orElseThrow(() -> wrong(key, null));
    }

    Gain gain(BoardKey key) {
        OptionalDouble volts = Quantities.parse(scalar(key), key.quantity());
        Gain gain = volts.isPresent() ? Gain.of(volts.getAsDouble()) : null;
        if (gain == null) {
            throw wrong(key, null);
        }
        return gain;
    }

    /** @param goesOn whether the lines go on beyond their ends */
    Points points(BoardKey key, Quantity gives, boolean goesOn) {
        List<Double> volts = new ArrayList<>();
        List<Double> values = new ArrayList<>();
        pairs(key, gives).forEach((typed, entry) -> {
            add(volts, Quantities.parse(typed, Quantity.VOLTAGE), entry.keyPlace(), typed, key, gives);
            String text = entry.value() instanceof Scalar scalar ? scalar.text() : "";
            values.add(Quantities.parse(text, gives)
                    .orElseThrow(() -> wrong(key, gives, entry.value().place(), YamlTree.found(entry.value()))));
        });
        return new Points(array(volts), array(values), goesOn);
    }

    Thermistor thermistor(BoardKey pullUp, BoardKey key) {
        double pullUpOhm = quantity(pullUp);
        List<Double> oilC = new ArrayList<>();
        List<Double> ohm = new ArrayList<>();
        pairs(key, null).forEach((typed, entry) -> {
            add(oilC, Quantities.parse(typed, Quantity.TEMPERATURE), entry.keyPlace(), typed, key, null);
            OptionalDouble value = bounded(key, entry.value() instanceof Scalar scalar ? scalar.text() : "");
            boolean falls = value.isPresent() && (ohm.isEmpty() || value.getAsDouble() < ohm.get(ohm.size() - 1));
            if (!falls || oilC.get(oilC.size() - 1) <= -273.15) {
                throw wrong(key, null, entry.value().place(), YamlTree.found(entry.value()));
            }
            ohm.add(value.getAsDouble());
        });
        return new Thermistor(pullUpOhm, array(oilC), array(ohm));
    }

    private java.util.Map<String, Entry> pairs(BoardKey key, Quantity gives) {
        Node node = node(key);
        if (node instanceof Mapping pairs && pairs.entries().size() >= 2) {
            return pairs.entries();
        }
        throw wrong(key, gives);
    }

    private void add(List<Double> rising, OptionalDouble value, Place at, String typed, BoardKey key, Quantity gives) {
        if (value.isEmpty() || !rising.isEmpty() && value.getAsDouble() <= rising.get(rising.size() - 1)) {
            throw wrong(key, gives, at, "'" + typed + "'");
        }
        rising.add(value.getAsDouble());
    }

    private static double[] array(List<Double> numbers) {
        return numbers.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private static OptionalDouble bounded(BoardKey key, String typed) {
        OptionalDouble si = Quantities.parse(typed, key.quantity());
        double slack = ROUNDING * Math.max(Math.abs(key.least()), Math.abs(key.most()));
        boolean within =
                si.isPresent() && si.getAsDouble() >= key.least() - slack && si.getAsDouble() <= key.most() + slack;
        return within ? si : OptionalDouble.empty();
    }

    private String scalar(BoardKey key) {
        if (!has(key) && key.standard() != null) {
            return key.standard();
        }
        if (node(key) instanceof Scalar scalar) {
            return scalar.text();
        }
        throw wrong(key, null);
    }

    private Node node(BoardKey key) {
        if (!has(key)) {
            throw error(place, key, "missing, expected " + key.expected(null));
        }
        return mapping.entries().get(key.word()).value();
    }

    private InputException wrong(BoardKey key, Quantity gives) {
        Node node = node(key);
        return wrong(key, gives, node.place(), YamlTree.found(node));
    }

    private InputException wrong(BoardKey key, Quantity gives, Place at, String found) {
        return error(at, key, "found " + found + ", expected " + key.expected(gives));
    }

    /** A sentence about the value of a key, at its place. */
    InputException error(BoardKey key, String sentence) {
        Place at = Optional.ofNullable(mapping.entries().get(key.word()))
                .map(entry -> entry.value().place())
                .orElse(place);
        return error(at, key, sentence);
    }

    private InputException error(Place at, BoardKey key, String sentence) {
        return YamlTree.error(file, at, dotted(key.word()) + ": " + sentence);
    }

    /** Line of the file at which a key's value stands. */
    int lineOf(BoardKey key) {
        return node(key).place().line();
    }

    private String dotted(String word) {
        return path.isEmpty() ? word : path + "." + word;
    }
}
