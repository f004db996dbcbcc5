package linehold.rig.loop;

import linehold.controller.tick.TickField;

/**
 * One tick as numbers, as the rig passes it on: when, how late, what is wrong with the rig, then every
 * {@link TickField}. Numbers alone, so that a row is copied without allocation.
 */
public final class TickRow {
    /** Time of the tick, ns, on the rig's clock. */
    public static final int NOW_NS = 0;
    /** How much later than due the tick began, ns. */
    public static final int LATE_NS = 1;
    /** Bits of {@link RigFault}. */
    public static final int RIG_FAULTS = 2;

    private static final TickField[] FIELDS = TickField.values();
    private static final int FIRST_FIELD = 3;
    /** Numbers in a row. */
    public static final int LENGTH = FIRST_FIELD + FIELDS.length;

    private TickRow() {}

    /** Where a field stands in a row. */
    public static int indexOf(TickField field) {
        return FIRST_FIELD + field.ordinal();
    }

    /** The field at a place; null for the first three. */
    public static TickField fieldAt(int index) {
        return index < FIRST_FIELD ? null : FIELDS[index - FIRST_FIELD];
    }
}
