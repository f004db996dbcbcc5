package linehold.rig.port;

import linehold.controller.Range;

/** The selected range. */
public interface RangeInput {
    /** Nothing tells the range. */
    RangeInput ABSENT = () -> null;

    /**
     * @return null where it is not known
     * @throws PortException where a line has failed
     */
    Range read() throws PortException;
}
