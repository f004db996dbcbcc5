package linehold.rig.port;

/** One measured quantity, in the SI unit (°C for temperature) of its {@link InputPorts} component. */
public interface AnalogInput {
    /** Nothing is fitted here. */
    AnalogInput ABSENT = () -> Double.NaN;

    /**
     * The latest value. Returns at once, whatever the device does; a value that is too old is absent.
     *
     * @return the value; NaN where there is none
     * @throws PortException where the device has failed
     */
    double read() throws PortException;
}
