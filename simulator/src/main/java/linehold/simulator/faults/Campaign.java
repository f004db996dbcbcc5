package linehold.simulator.faults;

import java.util.List;
import linehold.simulator.build.Build;

/**
 * The whole fault campaign of a build.
 *
 * @param build what was tried
 * @param singles every fault in every phase at every corner, in the order of faults, phases, temperatures
 * @param pairs the same with a silent fault beside it, only those worth telling: harm, and
 *     worse than the single fault
 * @param pairRuns how many pairs were tried
 * @param selfTest what the self-test at key-on finds
 * @param coverage by part
 */
public record Campaign(
        Build build,
        List<FaultRun> singles,
        List<FaultRun> pairs,
        int pairRuns,
        List<LatentFinding> selfTest,
        List<Coverage> coverage) {
    public Campaign {
        singles = List.copyOf(singles);
        pairs = List.copyOf(pairs);
        selfTest = List.copyOf(selfTest);
        coverage = List.copyOf(coverage);
    }

    /** Whether every single fault that the build claims to cover came to no harm. Without any run nothing is shown. */
    public boolean covered() {
        return !singles.isEmpty()
                && singles.stream()
                        .filter(FaultRun::claimed)
                        .allMatch(run -> run.outcome().covered());
    }

    /**
     * Claimed runs that were noticed in time by withheld or reduced drive alone, with no trouble code for a workshop to
     * find. Where the hold pressure was lost as well, codes alone would have noticed nothing.
     */
    public List<FaultRun> withoutCode() {
        return singles.stream()
                .filter(run -> run.claimed()
                        && run.outcome() == Outcome.NOTICED_IN_TIME
                        && run.codes().isEmpty())
                .toList();
    }

    /** Whether the line fell below the hold pressure under an engaged element. */
    public boolean holdPressureLost(FaultRun run) {
        return run.lowestPressurePa() < build.limits().holdPressurePa();
    }

    /** Whether the line rose above what its regulator can let through; the model has nothing that bursts. */
    public boolean overpressure(FaultRun run) {
        return Overpressure.is(build, run.highestPressurePa());
    }
}
