package linehold.rig.board;

import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import linehold.rig.board.Wire.Pull;
import linehold.simulator.build.InputException;
import linehold.simulator.build.YamlTree;
import linehold.simulator.build.YamlTree.Entry;
import linehold.simulator.build.YamlTree.Mapping;

/** Reads a board file: every section and key known, every value within its bounds, every line and channel used once. */
final class BoardReader {
    static final int CONVERTERS = 4;
    static final List<BoardKey> CONVERTER_KEYS = List.of(BoardKey.BUS, BoardKey.ADDRESS, BoardKey.OLDEST);
    static final List<BoardKey> TOP_KEYS = List.of(BoardKey.NAME, BoardKey.CHIP);
    /** The lines that carry bus 1 on every board of this class. */
    private static final int FIRST_BUS_LINE = 2;

    private static final int LAST_BUS_LINE = 3;

    private final String file;
    private final Mapping root;
    private final Map<Integer, Converter> converters = new TreeMap<>();
    private final Map<BoardFunction, Wire> wires = new EnumMap<>(BoardFunction.class);
    /** What has been used, as {@code line 17}, and by whom. */
    private final Map<String, String> used = new HashMap<>();

    private BoardReader(String file, Mapping root) {
        this.file = file;
        this.root = root;
    }

    /**
     * @param file how messages call it
     * @throws InputException on the first fault
     */
    static Board read(String file, byte[] bytes) {
        return new BoardReader(file, YamlTree.read(file, bytes)).board();
    }

    private Board board() {
        BoardSection top = new BoardSection(file, "", root.place(), root);
        top.onlyWords(Stream.of(
                        TOP_KEYS.stream().map(BoardKey::word),
                        IntStream.rangeClosed(1, CONVERTERS).mapToObj(BoardReader::converterSection),
                        Stream.of(BoardFunction.values()).map(BoardFunction::section))
                .flatMap(words -> words)
                .toList());
        String name = top.text(BoardKey.NAME);
        String chip = top.text(BoardKey.CHIP);
        for (int number = 1; number <= CONVERTERS; number++) {
            converter(number);
        }
        for (BoardFunction function : BoardFunction.values()) {
            function(function);
        }
        checkTogether();
        return new Board(name, chip, Map.copyOf(converters), Map.copyOf(wires));
    }

    private static String converterSection(int number) {
        return "adc-" + number;
    }

    private BoardSection section(String name) {
        Entry entry = root.entries().get(name);
        if (entry == null) {
            return null;
        }
        if (entry.value() instanceof Mapping mapping) {
            return new BoardSection(file, name, entry.keyPlace(), mapping);
        }
        throw YamlTree.error(
                file,
                entry.value().place(),
                name + ": found " + YamlTree.found(entry.value()) + ", expected keys and values below it");
    }

    private void converter(int number) {
        BoardSection section = section(converterSection(number));
        if (section == null) {
            return;
        }
        section.only(CONVERTER_KEYS);
        int bus = section.count(BoardKey.BUS);
        String address = section.choice(BoardKey.ADDRESS);
        long oldestNs = Math.round(1e9 * section.quantity(BoardKey.OLDEST));
        use("address " + address + " of bus " + bus, converterSection(number), section, BoardKey.ADDRESS);
        converters.put(number, new Converter(bus, Integer.decode(address), oldestNs));
    }

    private void function(BoardFunction function) {
        BoardSection section = section(function.section());
        if (section == null) {
            if (function.required()) {
                throw YamlTree.error(
                        file,
                        root.place(),
                        function.section() + ": missing, expected "
                                + function.kind().words());
            }
            return;
        }
        wires.put(function, wire(function, section));
    }

    private Wire wire(BoardFunction function, BoardSection section) {
        BoardFunction.Kind kind = function.kind();
        return switch (kind) {
            case OUTPUT -> {
                section.only(kind.keys());
                yield new Wire.Output(line(function, section), activeHigh(section));
            }
            case INPUT -> input(function, section);
            case PICKUP -> {
                section.only(kind.keys());
                boolean rising = section.choice(BoardKey.EDGE).equals("rising");
                yield new Wire.Pickup(line(function, section), rising, pull(section));
            }
            case READBACK -> {
                section.only(kind.keys());
                yield section.has(BoardKey.ADC) ? analog(function, section) : input(function, section);
            }
            case VOLTS, CURRENT, TEMPERATURE, TORQUE -> analog(function, section);
        };
    }

    private Wire.Input input(BoardFunction function, BoardSection section) {
        section.only(BoardFunction.Kind.INPUT.keys());
        return new Wire.Input(line(function, section), activeHigh(section), pull(section));
    }

    private Wire.Analog analog(BoardFunction function, BoardSection section) {
        BoardFunction.Kind kind = function.kind();
        section.only(kind == BoardFunction.Kind.READBACK ? BoardFunction.Kind.VOLTS.keys() : kind.keys());
        int converter = section.count(BoardKey.ADC);
        if (!converters.containsKey(converter)) {
            throw section.error(
                    BoardKey.ADC, "found '" + converter + "', expected the number of a converter that the file has");
        }
        int channel = section.count(BoardKey.CHANNEL);
        use("channel " + channel + " of adc-" + converter, function.section(), section, BoardKey.CHANNEL);
        return new Wire.Analog(
                converter,
                channel,
                section.gain(BoardKey.GAIN),
                section.quantity(BoardKey.DIVIDER),
                conversion(kind, section));
    }

    private static Conversion conversion(BoardFunction.Kind kind, BoardSection section) {
        return switch (kind) {
            case READBACK, VOLTS -> new Volts();
            case CURRENT -> section.points(BoardKey.POINTS, kind.quantity(), true);
            case TORQUE -> section.points(BoardKey.POINTS, kind.quantity(), false);
            case TEMPERATURE -> {
                boolean thermistor = section.has(BoardKey.PULL_UP) || section.has(BoardKey.RESISTANCE);
                if (thermistor && section.has(BoardKey.POINTS)) {
                    throw section.error(BoardKey.POINTS, "found points beside a thermistor, expected one of the two");
                }
                yield thermistor
                        ? section.thermistor(BoardKey.PULL_UP, BoardKey.RESISTANCE)
                        : section.points(BoardKey.POINTS, kind.quantity(), false);
            }
            case OUTPUT, INPUT, PICKUP -> throw new IllegalStateException(kind + " has no channel");
        };
    }

    private int line(BoardFunction function, BoardSection section) {
        int line = section.count(BoardKey.LINE);
        boolean busLine = line >= FIRST_BUS_LINE && line <= LAST_BUS_LINE;
        if (busLine && converters.values().stream().anyMatch(converter -> converter.bus() == 1)) {
            throw section.error(
                    BoardKey.LINE, "found '" + line + "', expected a line other than 2 and 3, which carry I2C bus 1");
        }
        use("line " + line, function.section(), section, BoardKey.LINE);
        return line;
    }

    private void use(String what, String user, BoardSection section, BoardKey key) {
        String other = used.putIfAbsent(what, user + " (line " + section.lineOf(key) + " of the file)");
        if (other != null) {
            throw section.error(key, "found " + what + ", which " + other + " has already, expected one of its own");
        }
    }

    private static boolean activeHigh(BoardSection section) {
        return section.choice(BoardKey.ACTIVE).equals("high");
    }

    private static Pull pull(BoardSection section) {
        return Pull.valueOf(section.choice(BoardKey.PULL).toUpperCase(Locale.ROOT));
    }

    private void checkTogether() {
        if (wires.containsKey(BoardFunction.PRESSURE_SENDER)) {
            need(BoardFunction.SENDER_SUPPLY, "pressure-sender");
        }
        if (wires.get(BoardFunction.OIL_TEMPERATURE) instanceof Wire.Analog analog
                && analog.conversion() instanceof Thermistor) {
            need(BoardFunction.SENDER_SUPPLY, "a thermistor");
        }
        List<BoardFunction> ranges = List.of(
                BoardFunction.RANGE_PARK,
                BoardFunction.RANGE_REVERSE,
                BoardFunction.RANGE_NEUTRAL,
                BoardFunction.RANGE_DRIVE);
        if (ranges.stream().anyMatch(wires::containsKey)) {
            ranges.forEach(range -> need(range, "the other range lines"));
        }
    }

    private void need(BoardFunction function, String beside) {
        if (!wires.containsKey(function)) {
            throw YamlTree.error(
                    file,
                    root.place(),
                    function.section() + ": missing beside " + beside + ", expected "
                            + function.kind().words());
        }
    }
}
