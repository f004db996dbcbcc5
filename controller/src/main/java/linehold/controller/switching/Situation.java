package linehold.controller.switching;

/** What the transition table asks about one tick. The caller overwrites every field before each tick. */
public final class Situation {
    public boolean keyOn;
    /** The unit has started while the shaft turned, and has not been off at rest since (LH-SW-9). */
    public boolean restarted;
    /** Standstill for the confirm time (LH-SW-9). */
    public boolean standstillConfirmed;
    /** Shaft speed below the switch-on speed of the moment (LH-SW-1). */
    public boolean belowSwitchOn;
    /** Shaft speed above the switch-off speed of the moment (LH-SW-2). */
    public boolean aboveSwitchOff;
    /** The same for the confirm time, and pressure at or above the hand-over pressure where a sender tells (LH-SW-2). */
    public boolean handOverReady;
    /** A sender tells the line pressure. */
    public boolean pressureKnown;
    /** Line pressure at or above the hold pressure; false while not known. */
    public boolean pressureHolds;
    /** Line pressure below the help pressure (LH-SW-5). */
    public boolean pressureLow;
    /** Pressure, or the electric pump's feed, was lost and drive is not yet given back (LH-PR-2, LH-RL-3, LH-PR-3). */
    public boolean pressureLost;
    /** The speed will reach the carry speed within the lead time (LH-SW-6). */
    public boolean carrySpeedNear;
    /** Brake applied below its speed (LH-SW-7). */
    public boolean braking;
    /** The key-on test of the relays leaves nothing to do (LH-RL-5). */
    public boolean selfTestOver;
    /** Oil temperature, °C; NaN while not known. */
    public double oilTemperatureC;

    /** Derived by {@link PumpSwitch}: PRIME has done its work (LH-SW-9). */
    boolean primed;
    /** Derived by {@link PumpSwitch}: neither minimum run time nor cool-down keeps the pump on (LH-SW-4, LH-SW-8). */
    boolean mayStop;

    /** Whether anything but low speed asks for the electric pump. */
    public boolean helpWanted() {
        return pressureLost || pressureLow || carrySpeedNear || braking;
    }
}
