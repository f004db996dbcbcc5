package linehold.simulator.build;

/** The units that tables, plots and reports speak. */
public enum UnitSystem {
    /** bar, L/min, N·m, °C. */
    METRIC,
    /** psi, gal/min, lbf·ft, °F. */
    US
}
