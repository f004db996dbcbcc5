package linehold.rig.adapter.pi4j;

import linehold.rig.port.AnalogInput;
import linehold.rig.port.PortException;
import linehold.rig.port.SwitchInput;

/** A contact that is read back by a line: high or low, told as the bus or 0 V. */
final class ContactLine implements AnalogInput {
    /** A line that is high tells of a supply even where nobody measures it. */
    private static final double NOMINAL_VOLTS = 12;

    private final SwitchInput line;
    private final AnalogInput bus;

    ContactLine(SwitchInput line, AnalogInput bus) {
        this.line = line;
        this.bus = bus;
    }

    @Override
    public double read() throws PortException {
        if (!line.read()) {
            return 0;
        }
        try {
            return bus.read();
        } catch (PortException e) {
            return NOMINAL_VOLTS;
        }
    }
}
