package linehold.simulator.faults;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.build.LimitsSpec.Word;
import linehold.simulator.build.Spelling;
import linehold.simulator.fault.FaultKind;

/** Which faults in which phases a build claims to cover: all but those its file names. */
public final class Claims {
    private final Map<FaultKind, Set<Phase>> uncovered = new EnumMap<>(FaultKind.class);

    /** @throws InputException with file, line and column where the build names a fault or phase that there is not */
    public Claims(Build build) {
        for (Word word : build.limits().uncoveredFaults()) {
            String[] parts = word.text().split("@", 2);
            String start = word.place() + ": limits.uncovered-faults: ";
            Set<Phase> phases = parts.length == 1 ? EnumSet.allOf(Phase.class) : EnumSet.of(phase(parts[1], start));
            uncovered
                    .computeIfAbsent(kind(parts[0], start), kind -> EnumSet.noneOf(Phase.class))
                    .addAll(phases);
        }
    }

    public boolean covers(FaultKind kind, Phase phase) {
        return !uncovered.getOrDefault(kind, Set.of()).contains(phase);
    }

    /**
     * A fault by its name in files and on the command line.
     *
     * @param start what a message says before it names what was found
     */
    public static FaultKind kind(String key, String start) {
        return Arrays.stream(FaultKind.values())
                .filter(kind -> kind.key().equals(key))
                .findFirst()
                .orElseThrow(() -> unknown(
                        key,
                        start,
                        Arrays.stream(FaultKind.values()).map(FaultKind::key).toList(),
                        "a fault"));
    }

    /** A phase likewise. */
    public static Phase phase(String key, String start) {
        return Arrays.stream(Phase.values())
                .filter(phase -> phase.key().equals(key))
                .findFirst()
                .orElseThrow(() -> unknown(
                        key,
                        start,
                        Arrays.stream(Phase.values()).map(Phase::key).toList(),
                        "a phase"));
    }

    private static InputException unknown(String found, String start, List<String> words, String noun) {
        String expected = Spelling.nearest(found, words)
                .map(word -> "'" + word + "'")
                .orElseGet(() -> noun + " out of " + String.join(", ", words));
        return new InputException(start + "found '" + found + "', expected " + expected);
    }
}
