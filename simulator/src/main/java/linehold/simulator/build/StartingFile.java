package linehold.simulator.build;

import static linehold.simulator.build.BuildKey.DESCRIPTION;
import static linehold.simulator.build.BuildKey.NAME;
import static linehold.simulator.build.BuildKey.UNITS;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import linehold.simulator.build.BuildValues.Value;

/**
 * The commented file that a person starts a new car from: every key with its meaning, bounds and where a good value
 * comes from, filled with the numbers of the demonstration car in the units asked for.
 */
public final class StartingFile {
    private static final int WIDTH = 110;

    /** Significant digits of a value that is read back, and of one that a comment mentions. */
    private static final int EXACTLY = 7;

    private static final int ROUGHLY = 4;

    private final UnitSystem units;
    private final BuildValues demonstration;
    private final StringBuilder out = new StringBuilder();

    private StartingFile(UnitSystem units) {
        this.units = units;
        this.demonstration = BuildReader.read("demonstration.yaml", BuildFile.shipped("demonstration"));
    }

    /**
     * The text of the file, in YAML.
     *
     * @param name what reports will call the build
     */
    public static String text(String name, UnitSystem units) {
        StartingFile file = new StartingFile(units);
        file.head(name);
        file.sections();
        return file.out.toString();
    }

    private void head(String name) {
        comment(
                "",
                "A car to be proved. Every number below is that of an invented demonstration car (assumed) until you"
                        + " replace it by your own; note beside it where yours comes from.");
        comment(
                "",
                "Each comment says what the value means, where a good one comes from, and its bounds. A value may be"
                        + " typed in any unit that docs/build-file.md lists, and with its spread from car to car behind ±. A key with # before it is not set; what it shows is"
                        + " its default, or an example where it has none.");
        comment(
                "",
                "A verdict is only as good as these numbers. Oil under pressure injures and hot oil burns; a car that"
                        + " loses line pressure stops driving or rolls. Measure with the car secured, follow local codes, and"
                        + " leave the work to people licensed for it.");
        out.append('\n');
        write("", NAME.key(), '"' + name.replace("\\", "\\\\").replace("\"", "\\\"") + '"', true);
        write("", DESCRIPTION.key(), DESCRIPTION.key().example(), false);
        write("", UNITS.key(), units.name().toLowerCase(Locale.ROOT), true);
    }

    private void sections() {
        for (FileKeys.Section section : FileKeys.SECTIONS) {
            List<FileKey> keys = FileKeys.ALL.stream()
                    .filter(key -> key.section().equals(section.path()))
                    .toList();
            String indent = section.parent().isEmpty() ? "" : "  ";
            boolean set = FileKeys.ALL.stream()
                    .anyMatch(key -> (key.section() + ".").startsWith(section.path() + ".")
                            && demonstration.find(key.path()).isPresent());
            out.append('\n');
            comment(indent, section.meaning());
            out.append(indent).append(set ? "" : "# ").append(section.name()).append(":\n");
            for (FileKey key : keys) {
                // What the demonstration build does not claim says nothing about another car.
                Optional<Value> value =
                        key.type() == FileKey.Type.WORDS ? Optional.empty() : demonstration.find(key.path());
                String typed = value.map(Value::text).orElse(key.standard() == null ? key.example() : key.standard());
                write(indent + "  ", key, inUnits(key, typed, EXACTLY), value.isPresent());
            }
        }
    }

    private void write(String indent, FileKey key, String value, boolean set) {
        comment(indent, key.meaning() + " " + facts(key));
        out.append(indent)
                .append(set ? "" : "# ")
                .append(key.name())
                .append(": ")
                .append(value)
                .append('\n');
    }

    private String facts(FileKey key) {
        List<String> facts = new ArrayList<>();
        if (key.provenance() != null && key.quantity() != null) {
            facts.add(key.provenance().text());
        }
        if (key.leastText() != null) {
            facts.add(one(key.quantity(), key.leastText(), ROUGHLY) + " to "
                    + one(key.quantity(), key.mostText(), ROUGHLY));
        }
        if (key.usual() != null) {
            facts.add("usually " + one(key.quantity(), key.usual().leastText(), ROUGHLY) + " to "
                    + one(key.quantity(), key.usual().mostText(), ROUGHLY));
        }
        if (key.type() == FileKey.Type.FLAG || key.type() == FileKey.Type.CHOICE) {
            facts.add(key.expected());
        }
        if (key.standard() != null) {
            facts.add("default " + inUnits(key, key.standard(), ROUGHLY));
        }
        return facts.isEmpty() ? "" : "[" + String.join("; ", facts) + "]";
    }

    /** What was typed, converted where the unit system asked for has a unit of its own. */
    private String inUnits(FileKey key, String typed, int digits) {
        return switch (key.type()) {
            case QUANTITY, COUNT -> one(key.quantity(), typed, digits);
            case LIST -> "[" + each(typed, item -> one(key.quantity(), item, digits)) + "]";
            case CURVE ->
                typed.startsWith("{")
                        ? "{" + each(typed, point -> point(key, point, digits)) + "}"
                        : one(key.quantity(), typed, digits);
            case WORDS, FLAG, CHOICE, TEXT -> typed;
        };
    }

    private static String each(String bracketed, UnaryOperator<String> change) {
        return Arrays.stream(bracketed.substring(1, bracketed.length() - 1).split(", "))
                .map(change)
                .collect(Collectors.joining(", "));
    }

    private String point(FileKey key, String point, int digits) {
        String[] parts = point.split(": ");
        return one(Quantity.TEMPERATURE, parts[0], digits) + ": " + one(key.quantity(), parts[1], digits);
    }

    private String one(Quantity quantity, String typed, int digits) {
        return TypedSpread.of(typed)
                .map(spread -> plain(quantity, spread.value(), digits) + " ± "
                        + (spread.isShare()
                                ? spread.spread()
                                : plain(TypedSpread.difference(quantity), spread.spread(), digits)))
                .orElseGet(() -> plain(quantity, typed, digits));
    }

    private String plain(Quantity quantity, String typed, int digits) {
        return switch (units) {
            case METRIC -> typed;
            case US ->
                quantity.usUnit()
                        .map(unit -> Quantities.write(
                                Quantities.parse(typed, quantity).orElseThrow(), unit, digits))
                        .orElse(typed);
        };
    }

    /** Lines of comment, broken between words. */
    private void comment(String indent, String text) {
        StringBuilder line = new StringBuilder(indent + "#");
        for (String word : text.strip().split(" ")) {
            if (line.length() + 1 + word.length() > WIDTH) {
                out.append(line).append('\n');
                line = new StringBuilder(indent + "#");
            }
            line.append(' ').append(word);
        }
        out.append(line).append('\n');
    }
}
