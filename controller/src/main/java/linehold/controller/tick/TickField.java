package linehold.controller.tick;

import java.util.Arrays;
import java.util.List;
import linehold.controller.DrivePermission;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.Range;
import linehold.controller.safety.SelfTestState;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;

/**
 * The fields of one tick: every input, then every output, in the order of a row. This list alone decides what a recording
 * holds. Booleans are 0 or 1, choices their ordinal, sets their bits, a choice that is not
 * known −1; whole numbers are exact up to 2⁵³, which as
 * nanoseconds is 104 days.
 */
public enum TickField {
    PICKUP_EDGE_COUNT("", (i, o) -> i.pickupEdgeCount, (i, v) -> i.pickupEdgeCount = (long) v),
    PICKUP_LAST_EDGE_NS("ns", (i, o) -> i.pickupLastEdgeNs, (i, v) -> i.pickupLastEdgeNs = (long) v),
    PRESSURE_SENDER_V("V", (i, o) -> i.pressureSenderVolts, (i, v) -> i.pressureSenderVolts = v),
    PRESSURE_SENDER_SUPPLY_V("V", (i, o) -> i.pressureSenderSupplyVolts, (i, v) -> i.pressureSenderSupplyVolts = v),
    MAIN_CONTACT_V("V", (i, o) -> i.mainContactVolts, (i, v) -> i.mainContactVolts = v),
    STANDBY_CONTACT_V("V", (i, o) -> i.standbyContactVolts, (i, v) -> i.standbyContactVolts = v),
    PUMP_CURRENT_A("A", (i, o) -> i.pumpCurrentAmps, (i, v) -> i.pumpCurrentAmps = v),
    BUS_V("V", (i, o) -> i.busVolts, (i, v) -> i.busVolts = v),
    OIL_C("°C", (i, o) -> i.oilTemperatureC, (i, v) -> i.oilTemperatureC = v),
    KEY_ON("", (i, o) -> bit(i.keyOn), (i, v) -> i.keyOn = v != 0),
    SELECTED_RANGE(
            "",
            (i, o) -> i.selectedRange == null ? TickField.UNKNOWN : i.selectedRange.ordinal(),
            (i, v) -> i.selectedRange = v == TickField.UNKNOWN ? null : Range.values()[(int) v],
            Range.values()),
    BRAKE_APPLIED("", (i, o) -> bit(i.brakeApplied), (i, v) -> i.brakeApplied = v != 0),
    TORQUE_REQUEST_NM("N·m", (i, o) -> i.torqueRequestNm, (i, v) -> i.torqueRequestNm = v),

    MAIN_RELAY_COIL("", (i, o) -> bit(o.mainRelayCoil)),
    STANDBY_RELAY_COIL("", (i, o) -> bit(o.standbyRelayCoil)),
    PERMISSION("", (i, o) -> o.permission.ordinal(), null, DrivePermission.values()),
    TORQUE_LIMIT_NM("N·m", (i, o) -> o.torqueLimitNm),
    WARNING_LAMP("", (i, o) -> bit(o.warningLamp)),
    BUZZER("", (i, o) -> bit(o.buzzer)),
    STATE("", (i, o) -> o.state.ordinal(), null, PumpState.values()),
    REASON("", (i, o) -> o.reason.ordinal(), null, SwitchReason.values()),
    ACTIVE_CODES("", (i, o) -> o.activeCodes),
    STORED_CODES("", (i, o) -> o.storedCodes),
    SHAFT_SPEED_RAD_S("rad/s", (i, o) -> o.shaftSpeedRadPerS),
    LINE_PRESSURE_PA("Pa", (i, o) -> o.linePressurePa),
    PUMP_WANTED("", (i, o) -> bit(o.pumpWanted)),
    SELF_TEST("", (i, o) -> o.selfTest.ordinal(), null, SelfTestState.values()),
    ABSENT_INPUTS("", (i, o) -> o.absentInputs),
    LATE_TICKS("", (i, o) -> o.lateTicks),
    REFUSED_TICKS("", (i, o) -> o.refusedTicks),
    REJECTED_EDGES("", (i, o) -> o.rejectedEdges),
    COOL_DOWNS("", (i, o) -> o.coolDowns);

    private static final int UNKNOWN = -1;

    private interface Getter {
        double get(Inputs in, Outputs out);
    }

    private interface Setter {
        void set(Inputs in, double value);
    }

    private final String unit;
    private final Getter getter;
    private final Setter setter;
    private final Enum<?>[] choices;

    TickField(String unit, Getter getter) {
        this(unit, getter, null);
    }

    TickField(String unit, Getter getter, Setter setter, Enum<?>... choices) {
        this.unit = unit;
        this.getter = getter;
        this.setter = setter;
        this.choices = choices;
    }

    /** The name of the column, unit last. */
    public String columnName() {
        return name().toLowerCase(java.util.Locale.ROOT);
    }

    /** SI unit, °C for temperature; empty for plain numbers. */
    public String unit() {
        return unit;
    }

    /** The names of the choices by their number; empty for what is no choice. */
    public List<String> choices() {
        return Arrays.stream(choices).map(Enum::name).toList();
    }

    public boolean isInput() {
        return setter != null;
    }

    /** The value as a number. */
    public double get(Inputs in, Outputs out) {
        return getter.get(in, out);
    }

    /** The value for people: the name of a choice, a whole number without a point, else the shortest exact decimal. */
    public String text(Inputs in, Outputs out) {
        return text(get(in, out));
    }

    /** The same of a value that has been kept as a number. */
    public String text(double value) {
        if (choices.length > 0) {
            return value == UNKNOWN ? "" : choices[(int) value].name();
        }
        return value == Math.rint(value) && Math.abs(value) < 1L << 53
                ? Long.toString((long) value)
                : Double.toString(value);
    }

    /**
     * Sets an input from its number.
     *
     * @throws IllegalStateException for an output
     */
    public void set(Inputs in, double value) {
        if (setter == null) {
            throw new IllegalStateException(columnName() + " is an output");
        }
        setter.set(in, value);
    }

    private static double bit(boolean value) {
        return value ? 1 : 0;
    }
}
