package linehold.simulator.build;

import linehold.controller.Range;

/**
 * The line pressure regulator valve.
 *
 * @param gainM3PerSPa flow per pressure above the set pressure, m³/(s·Pa)
 * @param setDrivePa set pressure in D, Pa
 * @param setReversePa set pressure in R (boosted), Pa
 * @param setParkNeutralPa set pressure in P and N, Pa
 */
public record RegulatorSpec(double gainM3PerSPa, double setDrivePa, double setReversePa, double setParkNeutralPa) {
    /** Set pressure in a range, Pa. */
    public double setPressurePa(Range range) {
        return switch (range) {
            case DRIVE -> setDrivePa;
            case REVERSE -> setReversePa;
            case PARK, NEUTRAL -> setParkNeutralPa;
        };
    }
}
