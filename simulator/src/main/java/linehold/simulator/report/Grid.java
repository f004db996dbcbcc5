package linehold.simulator.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.prove.Verdict;

/** The runs of a verdict as drives (in the order asked for) by oil temperatures (rising). */
final class Grid {
    /** Worse first: lost before held, the more severe loss, then the lower pressure, then the lower margin. */
    static final Comparator<RunVerdict> WORST_FIRST = Comparator.comparing(RunVerdict::held)
            .thenComparing(
                    run -> run.held() ? 0 : run.losses().get(0).criterion().ordinal())
            .thenComparingDouble(Grid::pressureForOrder)
            .thenComparingDouble(RunVerdict::marginMin);

    private final Map<String, List<RunVerdict>> byDrive = new LinkedHashMap<>();
    private final TreeSet<Double> temperatures = new TreeSet<>();

    Grid(Verdict verdict) {
        for (RunVerdict run : verdict.runs()) {
            byDrive.computeIfAbsent(run.drive(), name -> new ArrayList<>()).add(run);
            temperatures.add(run.oilC());
        }
        byDrive.values().forEach(runs -> runs.sort(Comparator.comparingDouble(RunVerdict::oilC)));
    }

    List<String> drives() {
        return List.copyOf(byDrive.keySet());
    }

    List<Double> temperaturesC() {
        return List.copyOf(temperatures);
    }

    /** Runs of a drive, coldest first. */
    List<RunVerdict> runs(String drive) {
        return byDrive.get(drive);
    }

    /** The run of a drive at a temperature, the worst if there are several; null if there is none. */
    RunVerdict run(String drive, double oilC) {
        return byDrive.get(drive).stream()
                .filter(run -> run.oilC() == oilC)
                .min(WORST_FIRST)
                .orElse(null);
    }

    /** A run that never primed has no pressure to show and nothing worse can happen. */
    private static double pressureForOrder(RunVerdict run) {
        double lowestPa = run.lowPoint().pressurePa();
        return Double.isNaN(lowestPa) ? Double.POSITIVE_INFINITY : lowestPa;
    }
}
