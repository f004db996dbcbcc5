package linehold.simulator.drive;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import linehold.simulator.build.Unit;

/**
 * The obvious columns of a log: those that are named like a quantity, and else the only one whose name ends with a unit of
 * the quantity. A person looks at them before they count.
 */
final class LogGuess {
    /** {@code Speed [rpm]}, {@code Speed (rpm)}, {@code speed_rpm}, {@code Speed, rpm}, {@code rpm}. */
    private static final Pattern NAME_AND_UNIT =
            Pattern.compile("(.*?)(?:[\\[(]\\s*([^\\])]*?)\\s*[\\])]|(?<=^|[\\s_,;:])([^\\s_,;:]+))\\s*");

    private LogGuess() {}

    static Map<String, LogPicks.Column> columns(List<String> all) {
        // Two of one name cannot be told apart.
        List<String> names = all.stream()
                .filter(name -> all.stream().filter(name::equalsIgnoreCase).count() == 1)
                .toList();
        Map<String, LogPicks.Column> picks = new LinkedHashMap<>();
        for (LogField field : LogField.values()) {
            named(field, names).or(() -> onlyOneWithUnit(field, names)).ifPresent(name -> {
                picks.put(field.key(), new LogPicks.Column(name, unit(field, name)));
            });
        }
        return picks;
    }

    /** As the column's name says, else that of our own format; null where it holds words. */
    static String unit(LogField field, String name) {
        return field.isWord()
                ? null
                : unitIn(field, name).orElse(LogMapping.defaultUnit(field)).printed();
    }

    private static Optional<String> named(LogField field, List<String> names) {
        String wanted = plain(field.key());
        return names.stream()
                .filter(name -> plain(name).equals(wanted)
                        || name.equalsIgnoreCase(field.ownColumn())
                        || (!field.isWord()
                                && unitIn(field, name).isPresent()
                                && plain(bare(name)).equals(wanted)))
                .findFirst();
    }

    /** A temperature or a voltage may be any: only their names tell. */
    private static Optional<String> onlyOneWithUnit(LogField field, List<String> names) {
        return switch (field) {
            case TIME, MOTOR_SPEED, ROAD_SPEED, MOTOR_TORQUE -> {
                List<String> found = names.stream()
                        .filter(name -> unitIn(field, name).isPresent())
                        .toList();
                yield found.size() == 1 ? Optional.of(found.get(0)) : Optional.empty();
            }
            case RANGE, GEAR, OIL_TEMPERATURE, BUS_VOLTAGE, BRAKE, KEY -> Optional.empty();
        };
    }

    private static Optional<Unit> unitIn(LogField field, String name) {
        if (name.equalsIgnoreCase(field.ownColumn())) {
            return Optional.of(LogMapping.defaultUnit(field));
        }
        Matcher matcher = NAME_AND_UNIT.matcher(name);
        if (!matcher.matches()) {
            return Optional.empty();
        }
        String label = matcher.group(2) != null ? matcher.group(2) : matcher.group(3);
        return field.quantity().unit(label).or(() -> field.quantity().unit(label.toLowerCase(Locale.ROOT)));
    }

    private static String bare(String name) {
        Matcher matcher = NAME_AND_UNIT.matcher(name);
        return matcher.matches() ? matcher.group(1) : name;
    }

    private static String plain(String name) {
        return name.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", " ").strip();
    }
}
