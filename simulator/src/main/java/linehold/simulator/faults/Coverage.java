package linehold.simulator.faults;

import linehold.simulator.fault.FaultKind;

/**
 * How much of one part's failure modes is found before harm.
 *
 * @param part the part
 * @param technique the diagnostic technique that finds them
 * @param modes failure modes tried
 * @param foundBeforeHarm modes that were harmless or noticed in time in every run
 * @param runs runs with these modes
 * @param runsBeforeHarm runs that were harmless or noticed in time
 * @param published what published tables claim for the technique, in words
 * @param publishedSource the table, with a mark where the value is from memory
 */
public record Coverage(
        FaultKind.Part part,
        String technique,
        int modes,
        int foundBeforeHarm,
        int runs,
        int runsBeforeHarm,
        String published,
        String publishedSource) {}
