package linehold.rig.board;

/** From the volts on a wire to the quantity that they mean. Pure, and without allocation. */
public sealed interface Conversion permits Volts, Points, Thermistor {
    /**
     * @param volts on the wire, V
     * @param supplyVolts supply of the senders, V; NaN where it is not known
     * @return the quantity in the SI unit of its input (°C for a temperature); NaN where the volts mean nothing
     */
    double at(double volts, double supplyVolts);
}
