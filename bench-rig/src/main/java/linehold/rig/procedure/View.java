package linehold.rig.procedure;

import java.util.List;

/**
 * How a procedure stands, for whoever shows it: a terminal, a page. A new one is published at every change and ten times
 * a second.
 *
 * @param procedure null before the first one
 * @param stepNumber from 1
 * @param question number of the question that waits for its answer; 0 where none waits
 * @param shaftRadPerS as the pickup shows it
 * @param linePressurePa as the sender shows it; NaN for none
 * @param findings so far
 * @param result null while the procedure runs
 */
public record View(
        Procedure procedure,
        Step step,
        int stepNumber,
        int steps,
        double stepS,
        long question,
        double shaftRadPerS,
        double linePressurePa,
        double pumpAmps,
        double oilC,
        List<Finding> findings,
        Result result) {
    static final View NONE =
            new View(null, null, 0, 0, 0, 0, Double.NaN, Double.NaN, Double.NaN, Double.NaN, List.of(), null);

    /** Before the first procedure. */
    static View idle(Reading now) {
        return new View(
                null, null, 0, 0, 0, 0, now.shaftRadPerS(), now.pressurePa, now.amps, now.oilC, List.of(), null);
    }

    /** Whether a procedure runs. */
    public boolean running() {
        return procedure != null && result == null;
    }
}
