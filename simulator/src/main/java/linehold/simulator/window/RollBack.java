package linehold.simulator.window;

/**
 * What a car that rolls back in first leaves of the line pressure: the internal pump turns backward and draws oil out.
 *
 * @param oilC oil temperature, °C
 * @param mostRadPerS how fast the shaft may turn backward, the electric pump alone keeping the hold pressure, rad/s; NaN
 *     where it does not keep it at standstill
 * @param lowestPa lowest line pressure when the car comes to rest on the start grade unbraked and rolls back at nine
 *     tenths of that, with the recommended pair, Pa; NaN without a pair
 */
public record RollBack(double oilC, double mostRadPerS, double lowestPa) {
    /** Share of {@link #mostRadPerS} that is tried. */
    public static final double TRIED = 0.9;
}
