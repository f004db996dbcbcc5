package linehold.rig.procedure;

import linehold.simulator.build.Quantity;

/** What a step wants to hear from a person before it goes on. */
public enum Ask {
    NOTHING(null),
    /** That the instruction has been followed. */
    CONFIRM(null),
    YES_NO(null),
    /** What a reference gauge on the line shows. */
    GAUGE_PRESSURE(Quantity.PRESSURE),
    /** What a thermometer in the oil shows. */
    OIL_TEMPERATURE(Quantity.TEMPERATURE);

    private final Quantity quantity;

    Ask(Quantity quantity) {
        this.quantity = quantity;
    }

    /** What is to be typed; null where no number is wanted. */
    public Quantity quantity() {
        return quantity;
    }
}
