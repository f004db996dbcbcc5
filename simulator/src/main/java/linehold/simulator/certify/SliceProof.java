package linehold.simulator.certify;

import linehold.simulator.certificate.Certificate.Slice;

/**
 * What was found for one slice of oil temperature.
 *
 * @param coldC lower end, °C
 * @param hotC upper end, °C
 * @param slice the curves; null where no pressure is certain
 * @param limit what sets the lowest pressure
 */
public record SliceProof(double coldC, double hotC, Slice slice, Limit limit) {
    /** Guaranteed lowest line pressure, Pa; 0 where none is. */
    public double lowestPa() {
        return slice == null ? 0 : slice.lowestPa();
    }

    /** Guaranteed lowest piston pressure of the engaged element, Pa; 0 where none is. */
    public double lowestPistonPa() {
        return slice == null ? 0 : slice.fall().lowestPistonPa();
    }

    /** How long the line needs to recover from a fall that ended before the pump was on, s; NaN where nothing is held. */
    public double recoveryS() {
        return slice == null ? Double.NaN : slice.recovery().endS();
    }
}
