package linehold.simulator.faults;

import linehold.simulator.build.Build;
import linehold.simulator.build.RegulatorSpec;

/**
 * Line pressure that a healthy car cannot reach. The model has nothing that gives way, so that a line without its
 * regulator rises to hundreds of bar; in a car a hose, a seal or the case bursts long before. No outcome tells it, for
 * outcomes are about the clutches: it is told beside them, and never counts as found before harm.
 */
final class Overpressure {
    /** Above the highest set pressure by this, the regulator cannot be at work any more (assumed). */
    private static final double OVER_SET = 1.5;

    private Overpressure() {}

    static boolean is(Build build, double pressurePa) {
        RegulatorSpec set = build.regulator();
        double highestPa = Math.max(set.setDrivePa(), Math.max(set.setReversePa(), set.setParkNeutralPa()));
        return pressurePa > OVER_SET * highestPa;
    }
}
