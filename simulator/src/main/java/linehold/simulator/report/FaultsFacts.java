package linehold.simulator.report;

import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.FaultCampaign;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.LatentFinding;
import linehold.simulator.faults.Outcome;
import linehold.simulator.faults.Phase;

/** A campaign counted and ordered, for table and page alike. */
final class FaultsFacts {
    /** The worse outcome first; among equals the smaller margin, then the lower pressure. */
    static final Comparator<FaultRun> WORST_FIRST = Comparator.comparing(FaultRun::outcome)
            .reversed()
            .thenComparingDouble(FaultRun::lowestMargin)
            .thenComparingDouble(FaultRun::lowestPressurePa);

    /** Where nothing slipped, pressure tells more than a margin. */
    private static final Comparator<FaultRun> LOWEST_FIRST =
            Comparator.comparingDouble(FaultRun::lowestPressurePa).thenComparingDouble(FaultRun::lowestMargin);

    private static final Comparator<FaultRun> HIGHEST_FIRST =
            Comparator.comparingDouble(FaultRun::highestPressurePa).reversed();

    /**
     * Runs of one fault with one outcome, all claimed or none.
     *
     * @param worst the run to tell for all of them
     */
    record Group(FaultKind kind, List<FaultRun> runs, FaultRun worst) {
        Outcome outcome() {
            return worst.outcome();
        }

        boolean claimed() {
            return worst.claimed();
        }
    }

    private final Campaign campaign;
    private final Map<FaultKind, List<FaultRun>> byFault;

    FaultsFacts(Campaign campaign) {
        this.campaign = campaign;
        byFault = campaign.singles().stream()
                .sorted(Comparator.comparing(
                                (FaultRun run) -> run.fault().kind().part())
                        .thenComparing(run -> run.fault().kind()))
                .collect(Collectors.groupingBy(run -> run.fault().kind(), LinkedHashMap::new, Collectors.toList()));
    }

    /** Runs by outcome, every outcome present. */
    Map<Outcome, Long> counts() {
        Map<Outcome, Long> counts = new EnumMap<>(Outcome.class);
        for (Outcome outcome : Outcome.values()) {
            counts.put(
                    outcome,
                    campaign.singles().stream()
                            .filter(run -> run.outcome() == outcome)
                            .count());
        }
        return counts;
    }

    /** Runs of each fault, part by part of the car. */
    Map<FaultKind, List<FaultRun>> byFault() {
        return byFault;
    }

    /** Runs of a fault that came to the same, the worst first, what is claimed before what is not. */
    List<Group> groups(FaultKind kind) {
        return byFault.get(kind).stream()
                .collect(Collectors.groupingBy(run -> List.of(run.outcome(), run.claimed())))
                .values()
                .stream()
                .map(this::group)
                .sorted(Comparator.comparing(Group::outcome)
                        .thenComparing(Group::claimed)
                        .reversed())
                .toList();
    }

    private Group group(List<FaultRun> runs) {
        Comparator<FaultRun> order = !runs.get(0).outcome().covered()
                ? WORST_FIRST
                : runs.stream().anyMatch(campaign::overpressure) ? HIGHEST_FIRST : LOWEST_FIRST;
        return new Group(
                runs.get(0).fault().kind(), runs, runs.stream().min(order).orElseThrow());
    }

    /** Whatever came to harm, fault by fault: claimed first, worst first. */
    List<Group> harm() {
        return byFault.keySet().stream()
                .flatMap(kind -> groups(kind).stream())
                .filter(group -> !group.outcome().covered())
                .sorted(Comparator.comparing(Group::claimed)
                        .thenComparing(Group::outcome)
                        .reversed())
                .toList();
    }

    /** Claimed runs noticed without a code in which the hold pressure was lost. */
    long lostWithoutCode() {
        return campaign.withoutCode().stream()
                .filter(campaign::holdPressureLost)
                .count();
    }

    /** Runs in which the line rose above what its regulator can let through, fault by fault. */
    Map<FaultKind, List<FaultRun>> overpressure() {
        Map<FaultKind, List<FaultRun>> found = new LinkedHashMap<>();
        byFault.forEach((kind, runs) -> {
            List<FaultRun> over = runs.stream().filter(campaign::overpressure).toList();
            if (!over.isEmpty()) {
                found.put(kind, over);
            }
        });
        return found;
    }

    boolean isOverpressure(FaultRun run) {
        return campaign.overpressure(run);
    }

    List<Phase> phases() {
        return campaign.singles().stream()
                .map(FaultRun::phase)
                .distinct()
                .sorted()
                .toList();
    }

    List<Double> temperaturesC() {
        return campaign.singles().stream()
                .map(FaultRun::oilC)
                .distinct()
                .sorted()
                .toList();
    }

    /** What key-on finds of the faults that can lie there before it. */
    String selfTestTally() {
        List<LatentFinding> all = campaign.selfTest();
        List<LatentFinding> silent = all.stream()
                .filter(finding -> FaultCampaign.SILENT.contains(finding.kind()))
                .toList();
        String text =
                "of " + Sentences.count(all.size(), "fault") + " that can lie there before the key is turned, key-on"
                        + " finds " + found(all) + " before drive is granted";
        if (silent.isEmpty()) {
            return text;
        }
        List<String> missed = silent.stream()
                .filter(finding -> !finding.found())
                .map(finding -> finding.kind().title())
                .toList();
        return text + "; of the " + silent.size() + " that show nothing by themselves, "
                + (missed.isEmpty() ? "all" : found(silent))
                + (missed.isEmpty() ? "" : " (not: " + String.join(", ", missed) + ")");
    }

    private static long found(List<LatentFinding> findings) {
        return findings.stream().filter(LatentFinding::found).count();
    }

    /** {@code 1222 runs: 47 faults in 13 phases at 2 oil temperatures}. */
    String tally() {
        return Sentences.count(campaign.singles().size(), "run") + ": "
                + Sentences.count(byFault.size(), "fault") + " in "
                + Sentences.count(phases().size(), "phase") + " at "
                + Sentences.count(temperaturesC().size(), "oil temperature");
    }

    /** {@code covered}, {@code not covered}, or {@code nothing tried}. */
    String word() {
        return campaign.singles().isEmpty() ? "nothing tried" : campaign.covered() ? "covered" : "not covered";
    }

    /** What the whole says about the build's claim. */
    String verdict() {
        if (campaign.singles().isEmpty()) {
            return "none of the faults asked for can befall this build";
        }
        String rest = exempt() == 0 ? "" : "; " + Sentences.count(exempt(), "run") + " it does not claim came to harm";
        long broken = harmful(true);
        return broken == 0
                ? "every fault tried that the build claims to cover came to no harm" + rest
                : Sentences.count(broken, "run") + " that the build claims to cover came to harm" + rest;
    }

    /** Runs that came to harm and that the build does not claim to cover. */
    long exempt() {
        return harmful(false);
    }

    private long harmful(boolean claimed) {
        return campaign.singles().stream()
                .filter(run -> !run.outcome().covered() && run.claimed() == claimed)
                .count();
    }
}
