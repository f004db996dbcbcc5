package linehold.simulator.report;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import linehold.simulator.build.Display;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.Outcome;
import linehold.simulator.faults.Phase;

/** Signs and words for what became of a fault, and where. */
final class FaultWords {
    static final String OVERPRESSURE = "↑";

    /** This many names are still quicker read than what is missing. */
    private static final int FEW = 3;

    private FaultWords() {}

    /** A sign that tells outcomes apart without colour. */
    static String sign(Outcome outcome) {
        return switch (outcome) {
            case HARMLESS -> "·";
            case NOTICED_IN_TIME -> "✓";
            case SLIP_DESPITE_NOTICE -> "▲";
            case SLIP_BEFORE_NOTICE -> "✕";
            case NEVER_NOTICED -> "■";
        };
    }

    /** The same for a terminal; harm that the build does not claim to cover is a small letter. */
    static String letter(Outcome outcome, boolean claimed) {
        return switch (outcome) {
            case HARMLESS -> ".";
            case NOTICED_IN_TIME -> "o";
            case SLIP_DESPITE_NOTICE -> claimed ? "D" : "d";
            case SLIP_BEFORE_NOTICE -> claimed ? "S" : "s";
            case NEVER_NOTICED -> claimed ? "N" : "n";
        };
    }

    static String meaning(Outcome outcome) {
        return switch (outcome) {
            case HARMLESS -> "nothing slipped, the line held its pressure, nothing was noticed and nothing had to be";
            case NOTICED_IN_TIME ->
                "a trouble code, or drive withheld or reduced; nothing slipped under the torque still permitted";
            case SLIP_DESPITE_NOTICE -> "noticed first, and an element slipped all the same";
            case SLIP_BEFORE_NOTICE -> "an element slipped before the controller noticed";
            case NEVER_NOTICED -> "an element slipped or lost its hold pressure, and the controller never noticed";
        };
    }

    /** {@code hose leaks (1.5 mm bore)}. */
    static String name(FaultKind kind) {
        return kind.usualSizeText().isEmpty() ? kind.title() : kind.title() + " (" + kind.usualSizeText() + ")";
    }

    /** {@code creeping at 120 °C}. */
    static String where(FaultRun run, Display display) {
        return run.phase().title() + " at " + display.temperature(run.oilC());
    }

    /**
     * A highest pressure. Three figures are enough for what a line without its regulator would rise to if nothing burst.
     */
    static String highest(double pa, Display display) {
        double value = display.pressureScale().value(pa);
        return value < 100 ? display.pressureScale().number(pa) : Numbers.fixed(value, 0);
    }

    /**
     * In which phases some runs of a fault were, and at which temperature where not at all of them. Titles may have a
     * comma in them.
     */
    static String phases(List<FaultRun> runs, FaultsFacts facts, Display display) {
        Map<Phase, List<Double>> has = new EnumMap<>(Phase.class);
        Map<Phase, List<Double>> lacks = new EnumMap<>(Phase.class);
        for (Phase phase : facts.phases()) {
            for (double oilC : facts.temperaturesC()) {
                boolean here = runs.stream().anyMatch(run -> run.phase() == phase && run.oilC() == oilC);
                (here ? has : lacks)
                        .computeIfAbsent(phase, key -> new ArrayList<>())
                        .add(oilC);
            }
        }
        if (lacks.isEmpty() && facts.phases().size() > 1) {
            return "Every phase.";
        }
        int all = facts.temperaturesC().size();
        if (lacks.size() <= FEW && has.size() > 2 * FEW) {
            return "Every phase but "
                    + lacks.entrySet().stream()
                            .map(entry -> entry.getKey().title()
                                    + (entry.getValue().size() == all ? "" : at(entry.getValue(), display)))
                            .collect(Collectors.joining("; "))
                    + ".";
        }
        // At all temperatures, then at some.
        Map<List<Double>, List<String>> parts = new LinkedHashMap<>();
        parts.put(facts.temperaturesC(), new ArrayList<>());
        has.forEach((phase, oilC) ->
                parts.computeIfAbsent(oilC, key -> new ArrayList<>()).add(phase.title()));
        return parts.entrySet().stream()
                .filter(part -> !part.getValue().isEmpty())
                .map(part -> (part.getKey().size() == all ? "" : at(part.getKey(), display) + ": ")
                        + (part.getValue().size() == facts.phases().size()
                                ? "every phase"
                                : String.join("; ", part.getValue())))
                .map(text -> Sentences.whole(text.strip()))
                .collect(Collectors.joining(" "));
    }

    private static String at(List<Double> temperaturesC, Display display) {
        return temperaturesC.stream().map(display::temperature).collect(Collectors.joining(" and ", " at ", ""));
    }
}
