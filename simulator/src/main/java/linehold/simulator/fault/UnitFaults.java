package linehold.simulator.fault;

/** What is broken about the control unit, its wiring and its supply. Everything is healthy at first. */
public final class UnitFaults {
    /**
     * The unit has no power or does not run: its outputs are not energised, its drive permission is withheld. When it
     * comes back it starts afresh.
     */
    public boolean dead;
    /** Every tick comes only when this has passed since the one before, s; 0 is on time. */
    public double tickEveryS;
    /** The wire from the unit to the coil of a relay is off. */
    public boolean mainCoilLost;

    public boolean standbyCoilLost;
    /** Open-circuit voltage of the bus, V; NaN leaves it as the drive or the build says. */
    public double busOpenVolts = Double.NaN;
}
