package linehold.controller;

/**
 * Everything the controller can know about the car at one tick (LH-TK-2). The caller owns one frame, fills it before
 * each {@link Controller#step} and may reuse it for ever.
 *
 * <p>Values are SI unless the name says otherwise. A measurement that is missing at this tick (a bus error, an absent
 * sensor) is {@link Double#NaN}; whether an optional input is fitted at all is a matter of calibration.
 */
public final class Inputs {
    /** Edges of the speed pickup since power-up; it only ever grows. */
    public long pickupEdgeCount;
    /** Monotonic time of the last pickup edge, ns, on the clock that {@link Controller#step} is given. */
    public long pickupLastEdgeNs;

    /** Signal of the line pressure sender, V. */
    public double pressureSenderVolts = Double.NaN;
    /** Supply of the line pressure sender, V. */
    public double pressureSenderSupplyVolts = Double.NaN;

    /** Voltage behind the contact of the main pump relay (the pump's side), V. */
    public double mainContactVolts = Double.NaN;
    /** Voltage behind the contact of the standby pump relay, V; NaN where none is fitted. */
    public double standbyContactVolts = Double.NaN;
    /** Current of the electric pump, A; optional. */
    public double pumpCurrentAmps = Double.NaN;
    /** Voltage of the 12 V bus, V. */
    public double busVolts = Double.NaN;
    /** Temperature of the transmission oil, °C; optional. */
    public double oilTemperatureC = Double.NaN;

    public boolean keyOn;
    /** Selected range; optional (null where it is not known). */
    public Range selectedRange = Range.PARK;
    /** Brake switch; optional. */
    public boolean brakeApplied;
    /** Torque the driver asks of the motor, N·m, signed; optional (NaN where no request is known). */
    public double torqueRequestNm = Double.NaN;
}
