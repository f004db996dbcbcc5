package linehold.rig.adapter.replay;

import java.util.function.Predicate;
import linehold.controller.Inputs;
import linehold.controller.tick.TickField;
import linehold.rig.loop.TickRow;
import linehold.rig.port.AnalogInput;
import linehold.rig.port.Car;
import linehold.rig.port.InputPorts;
import linehold.rig.port.OutputPorts;
import linehold.rig.port.PermissionOutput;
import linehold.rig.port.RigClock;
import linehold.rig.port.SwitchOutput;

/**
 * A recorded run behind the ports: what the inputs were at each tick, at the time that it had. It is its own clock, so that
 * the control loop runs through it as fast as it can. Its outputs lead nowhere.
 */
public final class ReplayedRun implements Car, RigClock {
    private final Predicate<double[]> rows;
    private double[] present = new double[TickRow.LENGTH];
    private double[] next = new double[TickRow.LENGTH];
    private boolean hasNext;
    private final Inputs seen = new Inputs();
    private final InputPorts inputs;
    private final OutputPorts outputs = new OutputPorts(
            SwitchOutput.ABSENT,
            SwitchOutput.ABSENT,
            PermissionOutput.ABSENT,
            SwitchOutput.ABSENT,
            SwitchOutput.ABSENT);

    /** @param rows fills the next row, as {@link TickRow} lays it out; false where there is none */
    public ReplayedRun(Predicate<double[]> rows) {
        this.rows = rows;
        hasNext = rows.test(next);
        inputs = new InputPorts(
                into -> {
                    into.count = seen.pickupEdgeCount;
                    into.lastEdgeNs = seen.pickupLastEdgeNs;
                },
                analog(TickField.PRESSURE_SENDER_V),
                analog(TickField.PRESSURE_SENDER_SUPPLY_V),
                analog(TickField.MAIN_CONTACT_V),
                analog(TickField.STANDBY_CONTACT_V),
                analog(TickField.PUMP_CURRENT_A),
                analog(TickField.BUS_V),
                analog(TickField.OIL_C),
                () -> seen.keyOn,
                () -> seen.brakeApplied,
                () -> seen.selectedRange,
                analog(TickField.TORQUE_REQUEST_NM));
    }

    private AnalogInput analog(TickField field) {
        return () -> present[TickRow.indexOf(field)];
    }

    /** The row that is being replayed; valid until the next tick. */
    public double[] row() {
        return present;
    }

    /** Whether a tick is to come. */
    public boolean hasNext() {
        return hasNext;
    }

    @Override
    public InputPorts inputs() {
        return inputs;
    }

    @Override
    public OutputPorts outputs() {
        return outputs;
    }

    @Override
    public boolean alive() {
        return true;
    }

    @Override
    public boolean begin(long nowNs) {
        if (!hasNext) {
            return false;
        }
        double[] passed = present;
        present = next;
        next = passed;
        hasNext = rows.test(next);
        for (TickField field : TickField.values()) {
            if (field.isInput()) {
                field.set(seen, present[TickRow.indexOf(field)]);
            }
        }
        return true;
    }

    /** Time of the tick to come; at the end that of the last one. */
    @Override
    public long nowNs() {
        return (long) (hasNext ? next : present)[TickRow.NOW_NS];
    }

    @Override
    public void sleepUntil(long ns) {}

    @Override
    public void close() {}
}
