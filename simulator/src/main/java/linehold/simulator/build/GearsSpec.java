package linehold.simulator.build;

/**
 * Ratios and shift points.
 *
 * @param firstRatio motor turns per output turn in first
 * @param topRatio motor turns per output turn in top
 * @param reverseRatio motor turns per output turn in reverse
 * @param finalRatio final drive
 * @param shiftUpRadPerS motor speed in first at which top is taken, rad/s
 * @param shiftDownRadPerS motor speed in top at which first is taken, rad/s
 * @param shiftS time in which the motor speed follows from one gear to the other, s
 */
public record GearsSpec(
        double firstRatio,
        double topRatio,
        double reverseRatio,
        double finalRatio,
        double shiftUpRadPerS,
        double shiftDownRadPerS,
        double shiftS) {
    /** Motor turns per wheel turn. */
    public double totalRatio(Gear gear) {
        return finalRatio
                * switch (gear) {
                    case FIRST -> firstRatio;
                    case TOP -> topRatio;
                    case REVERSE -> reverseRatio;
                    case NEUTRAL -> topRatio;
                };
    }
}
