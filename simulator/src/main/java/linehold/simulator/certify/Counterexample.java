package linehold.simulator.certify;

import linehold.simulator.drive.RowDrive;

/**
 * The worst drive that the search found in one slice of oil temperature.
 *
 * @param coldC lower end of the slice, °C
 * @param hotC upper end of the slice, °C
 * @param oilC oil temperature of the drive, °C
 * @param boundPa guaranteed lowest line pressure, Pa
 * @param lowestPa lowest line pressure of the drive, Pa
 * @param drive the drive
 * @param timeS times of the trace, s
 * @param linePa line pressure there, lowest since the tick before, Pa
 * @param shaftRadPerS shaft speed there, rad/s
 * @param lastFallS when its last fall passes the speed at which the bound's curve begins, s
 */
public record Counterexample(
        double coldC,
        double hotC,
        double oilC,
        double boundPa,
        double lowestPa,
        RowDrive drive,
        double[] timeS,
        double[] linePa,
        double[] shaftRadPerS,
        double lastFallS) {
    /** How far the search stays above the bound, as a share of what it found. */
    public double gap() {
        return (lowestPa - boundPa) / lowestPa;
    }
}
