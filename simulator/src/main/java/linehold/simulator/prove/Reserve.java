package linehold.simulator.prove;

import linehold.simulator.prove.Loss.Criterion;

/**
 * How far a run stays from its limits, each as a ratio of which 1 is just allowed; infinite where nothing was asked.
 *
 * @param pressure lowest line pressure, settled while none is lost, over hold pressure
 * @param margin lowest capacity over demand, over the safety factor
 * @param engagement engagement limit over longest engagement
 * @param lost the most severe of what was broken; null where the run held
 */
public record Reserve(double pressure, double margin, double engagement, Criterion lost) {
    public boolean held() {
        return lost == null;
    }

    /** The least of the three; 0 where the line never held pressure after key-on. */
    public double least() {
        return lost == Criterion.NEVER_PRIMED ? 0 : Math.min(pressure, Math.min(margin, engagement));
    }
}
