package linehold.rig.board;

import java.util.List;
import java.util.Locale;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;

/** Every key of the board file: reading, messages and docs/board-file.md follow from it. */
enum BoardKey {
    NAME(Type.TEXT, null, "bench board", null, "What messages and the lock file call the board."),
    CHIP(
            Type.TEXT,
            null,
            "pinctrl",
            "pinctrl",
            "Part of the label of the chip that has the lines, as gpiodetect prints it; every board of the Raspberry Pi"
                    + " class has one such chip."),
    BUS(Type.COUNT, Quantity.RATIO, "1", null, "Number of the I2C bus: n of /dev/i2c-n.", "0", "31"),
    ADDRESS(Type.CHOICE, null, "0x48", null, "Where its address pin puts it.", "0x48", "0x49", "0x4a", "0x4b"),
    OLDEST(
            Type.QUANTITY,
            Quantity.TIME,
            "100 ms",
            "100 ms",
            "A value older than this is absent: the bus is stuck. A round through four channels takes about 8 ms.",
            "20 ms",
            "1 s"),
    LINE(
            Type.COUNT,
            Quantity.RATIO,
            "17",
            null,
            "Number of the line on the chip, as gpioinfo counts it (not the pin of the plug).",
            "0",
            "27"),
    ACTIVE(Type.CHOICE, null, "high", "high", "The level that means on.", "high", "low"),
    PULL(Type.CHOICE, null, "up", "none", "Where the board pulls the line: no more than a help.", "none", "up", "down"),
    EDGE(Type.CHOICE, null, "rising", "rising", "The edge at which a pulse counts.", "rising", "falling"),
    ADC(Type.COUNT, Quantity.RATIO, "1", null, "Number of the converter: the section adc-1 to adc-4.", "1", "4"),
    CHANNEL(Type.COUNT, Quantity.RATIO, "0", null, "Channel of the converter, against ground.", "0", "3"),
    GAIN(Type.GAIN, Quantity.VOLTAGE, "4.096 V", null, "Full scale of the channel: one of " + Gain.labels() + "."),
    DIVIDER(
            Type.QUANTITY,
            Quantity.RATIO,
            "5.70",
            "1",
            "Volts on the wire for one volt at the converter: (upper + lower)/lower resistance, better measured.",
            "1",
            "100"),
    POINTS(
            Type.POINTS,
            Quantity.VOLTAGE,
            "{0.5 V: 0 A, 4.5 V: 50 A}",
            null,
            "What the volts on the wire mean: straight lines between two or more points. Pump current goes on beyond them;"
                    + " a temperature or a torque request outside them is absent."),
    PULL_UP(
            Type.QUANTITY,
            Quantity.RESISTANCE,
            "1 kohm",
            null,
            "Resistor from the thermistor's wire to the senders' supply.",
            "10 ohm",
            "1000 kohm"),
    RESISTANCE(
            Type.THERMISTOR,
            Quantity.RESISTANCE,
            "{20 °C: 2.5 kohm, 60 °C: 595 ohm, 120 °C: 114 ohm}",
            null,
            "Resistance of the thermistor at two or more temperatures; it falls.",
            "1 ohm",
            "1000 kohm");

    /** What a value looks like. */
    enum Type {
        TEXT,
        COUNT,
        CHOICE,
        QUANTITY,
        GAIN,
        POINTS,
        THERMISTOR
    }

    private final Type type;
    private final Quantity quantity;
    private final String example;
    private final String standard;
    private final String meaning;
    /** The choices, or least and most. */
    private final List<String> bounds;

    BoardKey(Type type, Quantity quantity, String example, String standard, String meaning, String... bounds) {
        this.type = type;
        this.quantity = quantity;
        this.example = example;
        this.standard = standard;
        this.meaning = meaning;
        this.bounds = List.of(bounds);
    }

    /** As it stands in the file: {@code pull-up}. */
    String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    Type type() {
        return type;
    }

    Quantity quantity() {
        return quantity;
    }

    String example() {
        return example;
    }

    /** What counts where the file does not have the key, as typed; null where it must. */
    String standard() {
        return standard;
    }

    String meaning() {
        return meaning;
    }

    List<String> choices() {
        return bounds;
    }

    double least() {
        return Quantities.parse(bounds.get(0), quantity).orElseThrow();
    }

    double most() {
        return Quantities.parse(bounds.get(1), quantity).orElseThrow();
    }

    /**
     * What a value must look like, for a message.
     *
     * @param gives what points give; null for every other key
     */
    String expected(Quantity gives) {
        return switch (type) {
            case TEXT -> "a text of 1 to 60 characters such as '" + example + "'";
            case COUNT -> "a whole number such as '" + example + "' between " + between();
            case CHOICE -> String.join(" or ", bounds);
            case QUANTITY ->
                quantity.noun() + " such as '" + example + "' (" + quantity.labels() + ") between " + between();
            case GAIN -> "one of " + Gain.labels();
            case POINTS ->
                "two or more points from rising voltages to " + gives.noun() + " such as '" + example(gives) + "'";
            case THERMISTOR ->
                "two or more rising temperatures with falling resistances between " + between() + " such as '" + example
                        + "'";
        };
    }

    private String between() {
        return bounds.get(0) + " and " + bounds.get(1);
    }

    private static String example(Quantity gives) {
        String label = gives.units().get(0).label();
        return "{0.5 V: 0 " + label + ", 4.5 V: 50 " + label + "}";
    }

    /** The allowed values in a table's cell. */
    String range() {
        return switch (type) {
            case TEXT -> "1 to 60 characters";
            case COUNT, QUANTITY, THERMISTOR -> bounds.get(0) + " to " + bounds.get(1);
            case CHOICE -> String.join(", ", bounds);
            case GAIN -> "the six";
            case POINTS -> "two or more points";
        };
    }
}
