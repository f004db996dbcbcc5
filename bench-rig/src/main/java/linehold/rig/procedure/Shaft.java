package linehold.rig.procedure;

import linehold.controller.Range;

/**
 * What is asked of whoever turns the shaft: a hand, a drill, the simulated hand. The step's instruction says the same in
 * words.
 *
 * @param radPerS speed to go to and to keep, rad/s
 * @param radPerS2 how fast to go there, rad/s²
 * @param turns revolutions after which the shaft is to rest again; infinite for none
 * @param range range to be selected
 */
public record Shaft(double radPerS, double radPerS2, double turns, Range range) {
    /** A hand at a drill's trigger, rad/s²; assumed. */
    private static final double DRILL_RAD_PER_S2 = 50;

    /** At rest. */
    public static Shaft still(Range range) {
        return new Shaft(0, DRILL_RAD_PER_S2, Double.POSITIVE_INFINITY, range);
    }

    /** At a speed. The shaft is only ever turned in neutral, so that no wheel turns with it. */
    static Shaft at(double radPerS) {
        return new Shaft(radPerS, DRILL_RAD_PER_S2, Double.POSITIVE_INFINITY, Range.NEUTRAL);
    }

    /** To a speed, as fast as given. */
    static Shaft to(double radPerS, double radPerS2) {
        return new Shaft(radPerS, radPerS2, Double.POSITIVE_INFINITY, Range.NEUTRAL);
    }

    /** Whole turns by hand. */
    static Shaft turns(int turns, double radPerS) {
        return new Shaft(radPerS, DRILL_RAD_PER_S2, turns, Range.NEUTRAL);
    }
}
