package linehold.simulator.certify;

import java.util.List;

/**
 * Everything that {@code linehold certify} found.
 *
 * @param asWritten guarantees for the car as the build file writes it
 * @param withSpreads the same for any car within the file's spreads; null where it has none
 * @param spreadsAsked whether the certificate is the one of {@code withSpreads}
 * @param found worst drives found, in some slices of the certified one
 * @param runsEach closed-loop runs in each of these slices
 * @param seed of the search
 */
public record Report(
        Certification asWritten,
        Certification withSpreads,
        boolean spreadsAsked,
        List<Counterexample> found,
        int runsEach,
        long seed) {
    public Report {
        found = List.copyOf(found);
    }

    /** The one that is certified or refused. */
    public Certification main() {
        return spreadsAsked ? withSpreads : asWritten;
    }

    /** The worst drive of all; null where no search was made. */
    public Counterexample worst() {
        return found.stream()
                .min(java.util.Comparator.comparingDouble(Counterexample::lowestPa))
                .orElse(null);
    }

    /** What the certificate does not cover; printed with every result. */
    public static final List<String> NOT_COVERED = List.of(
            "Gear changes and engagement: the bound counts while an element is engaged and the line has settled since.",
            "Faults of any part, and a pickup or relay slower than stated.",
            "A shaft that shakes about the switch-on speed: falls that are over before the contact has closed, and come again"
                    + " before the line has recovered; a shaft that rocks to and fro across a tooth.",
            "Drives, oil temperatures, bus voltages and parts outside the ranges; oil that leaves its slice of temperature"
                    + " during a fall.",
            "Errors of the model against the car: only measurement on the bench shows those. Early starts by brake, falling"
                    + " speed or low pressure are not counted on: what they buy is reserve.");
}
