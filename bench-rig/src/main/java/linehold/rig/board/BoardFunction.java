package linehold.rig.board;

import java.util.List;
import java.util.Locale;
import linehold.simulator.build.Quantity;

/** What a line or a converter's channel can be: one section of the board file each. */
public enum BoardFunction {
    MAIN_COIL(
            Kind.OUTPUT,
            true,
            "Coil of the main pump relay. Safe level: the pump runs (LH-RL-6); with a normally closed contact that is the"
                    + " coil released."),
    STANDBY_COIL(Kind.OUTPUT, false, "Coil of the standby pump relay. Safe level: released."),
    PERMISSION_GRANTED(
            Kind.OUTPUT,
            false,
            "The motor may give full torque (LH-TK-3). Safe level: not granted. While drive is reduced or withheld it is"
                    + " off."),
    PERMISSION_REDUCED(
            Kind.OUTPUT,
            false,
            "The motor may give reduced torque. Safe level: off. A line cannot tell N·m: the motor controller is set to the"
                    + " lowest limit that the verdict's page gives. Where this line is not fitted, reduced is withheld."),
    LAMP(Kind.OUTPUT, false, "Warning lamp. Safe level: lit."),
    BUZZER(Kind.OUTPUT, false, "Buzzer. Safe level: silent."),
    HEARTBEAT(
            Kind.OUTPUT,
            false,
            "Changes its level at every completed tick, for a retriggerable monostable that takes the supply off the coils"
                    + " as soon as ticks stop (docs/install.md). Safe level: off."),
    KEY(Kind.INPUT, true, "Key on."),
    BRAKE(Kind.INPUT, false, "Brake switch."),
    RANGE_PARK(Kind.INPUT, false, "Shift lever in park. All four range lines or none."),
    RANGE_REVERSE(Kind.INPUT, false, "Shift lever in reverse."),
    RANGE_NEUTRAL(Kind.INPUT, false, "Shift lever in neutral."),
    RANGE_DRIVE(Kind.INPUT, false, "Shift lever in drive. Exactly one line on is a range; anything else is not known."),
    PICKUP(Kind.PICKUP, true, "Speed pickup of the shaft."),
    MAIN_CONTACT(
            Kind.READBACK,
            true,
            "Behind the contact of the main relay, the pump's side (LH-RL-1, LH-RL-2): a channel behind a divider, or a line"
                    + " that is only high or low and then reads as the bus or 0 V."),
    STANDBY_CONTACT(Kind.READBACK, false, "The same of the standby relay."),
    PRESSURE_SENDER(Kind.VOLTS, false, "Signal of the line pressure sender."),
    SENDER_SUPPLY(Kind.VOLTS, false, "Supply of the senders; needed beside pressure-sender, and beside a thermistor."),
    BUS(Kind.VOLTS, true, "The 12 V bus."),
    PUMP_CURRENT(Kind.CURRENT, false, "Current of the electric pump."),
    OIL_TEMPERATURE(
            Kind.TEMPERATURE,
            false,
            "Temperature of the transmission oil: a sender with points, or a thermistor from the wire to ground."),
    TORQUE_REQUEST(Kind.TORQUE, false, "Torque that the driver asks of the motor, signed.");

    /** What a function is connected to; which keys its section has. */
    enum Kind {
        OUTPUT("output line", null),
        INPUT("input line", null),
        PICKUP("pulse input line", null),
        READBACK("input line, or converter channel in V", null),
        VOLTS("converter channel in V", null),
        CURRENT("converter channel with points in A", Quantity.CURRENT),
        TEMPERATURE("converter channel with points in °C, or a thermistor", Quantity.TEMPERATURE),
        TORQUE("converter channel with points in N·m", Quantity.TORQUE);

        private static final List<BoardKey> CHANNEL =
                List.of(BoardKey.ADC, BoardKey.CHANNEL, BoardKey.GAIN, BoardKey.DIVIDER);

        private final String words;
        private final Quantity quantity;

        Kind(String words, Quantity quantity) {
            this.words = words;
            this.quantity = quantity;
        }

        String words() {
            return words;
        }

        /** What the points of a channel give; null where it has none. */
        Quantity quantity() {
            return quantity;
        }

        List<BoardKey> keys() {
            return switch (this) {
                case OUTPUT -> List.of(BoardKey.LINE, BoardKey.ACTIVE);
                case INPUT -> List.of(BoardKey.LINE, BoardKey.ACTIVE, BoardKey.PULL);
                case PICKUP -> List.of(BoardKey.LINE, BoardKey.EDGE, BoardKey.PULL);
                case READBACK -> joined(INPUT.keys(), CHANNEL);
                case VOLTS -> CHANNEL;
                case CURRENT, TORQUE -> joined(CHANNEL, List.of(BoardKey.POINTS));
                case TEMPERATURE -> joined(CHANNEL, List.of(BoardKey.POINTS, BoardKey.PULL_UP, BoardKey.RESISTANCE));
            };
        }

        private static List<BoardKey> joined(List<BoardKey> first, List<BoardKey> second) {
            return java.util.stream.Stream.concat(first.stream(), second.stream())
                    .toList();
        }
    }

    private final Kind kind;
    private final boolean required;
    private final String meaning;

    BoardFunction(Kind kind, boolean required, String meaning) {
        this.kind = kind;
        this.required = required;
        this.meaning = meaning;
    }

    /** As it stands in the file: {@code main-coil}. */
    public String section() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    Kind kind() {
        return kind;
    }

    boolean required() {
        return required;
    }

    String meaning() {
        return meaning;
    }
}
