package linehold.controller.safety;

/** The values of a freeze frame: what the controller saw when a stored code came up for the first time (LH-TC-1). */
public enum FrozenValue {
    SHAFT_SPEED("rad/s"),
    LINE_PRESSURE("Pa"),
    BUS_VOLTAGE("V"),
    MAIN_CONTACT_VOLTAGE("V"),
    STANDBY_CONTACT_VOLTAGE("V"),
    PUMP_CURRENT("A"),
    OIL_TEMPERATURE("°C"),
    TORQUE_REQUEST("N·m"),
    /** Ordinal of the pump state. */
    PUMP_STATE("");

    private final String unit;

    FrozenValue(String unit) {
        this.unit = unit;
    }

    /** Unit of the value; empty for plain numbers. */
    public String unit() {
        return unit;
    }
}
