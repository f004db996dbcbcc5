package linehold.controller.safety;

/**
 * The trouble codes that a workshop reads (LH-TC-1). Times are those of the clock that the steps are given; a rig that
 * keeps codes over a loss of power gives a clock that runs on, or converts them.
 */
public interface StoredCodes {
    /** Codes active now or before, as bits of {@link TroubleCode#bit}. */
    long stored();

    /** How often a code has come up since it was stored; 0 if it is not stored. */
    long count(TroubleCode code);

    /** When a stored code was first active, ns. */
    long firstNs(TroubleCode code);

    /** When a stored code was last active, ns. */
    long lastNs(TroubleCode code);

    /** What was seen when a stored code was first active; NaN where it was not known. */
    double frozen(TroubleCode code, FrozenValue value);

    /** How many longs {@link #exportTo} writes. */
    int exportedLongs();

    /** How many doubles {@link #exportTo} writes. */
    int exportedDoubles();

    /** Writes the whole store into arrays of at least the exported sizes, for keeping over a loss of power. */
    void exportTo(long[] longs, double[] doubles);

    /**
     * Takes what {@link #exportTo} wrote, in place of what is stored; to be called before the first step. An export of an
     * older release, which knows fewer codes, is taken too.
     *
     * @param laterNs added to the times of the codes: what the clock of the steps has been set back since, ns
     * @throws IllegalArgumentException if the arrays are no export; nothing has then changed
     */
    void importFrom(long[] longs, double[] doubles, long laterNs);

    /** The same on a clock that has run on. */
    default void importFrom(long[] longs, double[] doubles) {
        importFrom(longs, doubles, 0);
    }
}
