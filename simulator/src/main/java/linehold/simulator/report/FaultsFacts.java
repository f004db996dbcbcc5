package linehold.simulator.report;

import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.LatentFinding;
import linehold.simulator.faults.Outcome;
import linehold.simulator.faults.Phase;

/** A campaign counted and ordered, for table and page alike. */
final class FaultsFacts {
    private final Campaign campaign;

    FaultsFacts(Campaign campaign) {
        this.campaign = campaign;
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
        return campaign.singles().stream()
                .sorted(Comparator.comparing(run -> run.fault().kind().part()))
                .collect(Collectors.groupingBy(run -> run.fault().kind(), LinkedHashMap::new, Collectors.toList()));
    }

    /** Whatever came to harm, claimed first, worst first. */
    List<FaultRun> harmful() {
        return campaign.singles().stream()
                .filter(run -> !run.outcome().covered())
                .sorted(Comparator.comparing(FaultRun::claimed)
                        .reversed()
                        .thenComparing(Comparator.comparing(FaultRun::outcome).reversed()))
                .toList();
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

    long selfTestFinds() {
        return campaign.selfTest().stream().filter(LatentFinding::found).count();
    }

    /** {@code 1222 runs: 47 faults in 13 phases at 2 oil temperatures}. */
    String tally() {
        return Sentences.count(campaign.singles().size(), "run") + ": "
                + Sentences.count(byFault().size(), "fault") + " in "
                + Sentences.count(phases().size(), "phase") + " at "
                + Sentences.count(temperaturesC().size(), "oil temperature");
    }

    /** What the whole says about the build's claim. */
    String verdict() {
        long exempt = campaign.singles().stream()
                .filter(run -> !run.outcome().covered() && !run.claimed())
                .count();
        long broken = campaign.singles().stream()
                .filter(run -> !run.outcome().covered() && run.claimed())
                .count();
        String rest = exempt == 0 ? "" : "; " + Sentences.count(exempt, "run") + " it does not claim came to harm";
        return broken == 0
                ? "every fault that the build claims to cover comes to no harm" + rest
                : Sentences.count(broken, "run") + " that the build claims to cover came to harm" + rest;
    }
}
