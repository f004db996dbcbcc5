package linehold.rig.procedure;

import java.util.List;

/**
 * How a procedure has ended.
 *
 * @param sentence why it failed or was stopped; empty for a pass
 * @param durationS s
 * @param oilC oil temperature at the end, °C; NaN where it is not known
 * @param defect what went wrong in the program itself; null where nothing did
 */
public record Result(
        Procedure procedure,
        Outcome outcome,
        String sentence,
        List<Finding> findings,
        double durationS,
        double oilC,
        Throwable defect) {}
