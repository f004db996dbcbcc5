package linehold.controller.safety;

/** What one tick shows of the electric pump and its feed. The caller overwrites every field before each tick. */
public final class PumpSigns {
    /** The pump state asks for the electric pump. */
    public boolean wanted;
    /** The pump state is PRIME. */
    public boolean priming;
    /** A trouble code asks for the standby relay along with the main relay. */
    public boolean bothRelays;
    /** Voltage behind the main contact, V; NaN while not read. */
    public double mainContactVolts;
    /** Voltage behind the standby contact, V; NaN while not read. */
    public double standbyContactVolts;
    /** Bus voltage, V; NaN while not known. */
    public double busVolts;
    /** Pump current, A; NaN while not read. */
    public double amps;
    /** Line pressure, Pa; NaN while not known. */
    public double pressurePa;
    /** Oil temperature, °C; NaN while not known. */
    public double oilTemperatureC;
    /** Edges of the pickup since power-up, accepted or not. */
    public long edges;
    /** The pickup is lost: no edge means nothing. */
    public boolean pickupLost;
    /** The shaft is fast enough for the internal pump, and pressure is known to hold. */
    public boolean internalPumpCarries;
    /** The driver asks for no torque (LH-PR-2). */
    public boolean letGo;
}
