package linehold.simulator.faults;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import linehold.simulator.build.Build;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.fault.FaultKind.Part;

/**
 * The diagnostic technique for each part, beside what published tables claim for that technique. The tables themselves
 * were not read: their entries are from memory, and say so. Levels: low 60 %, medium 90 %, high 99 % (IEC 61508-2:2010,
 * ISO 13849-1).
 */
enum DiagnosticTechnique {
    RELAY(
            Part.RELAY,
            "voltage read back behind each contact; each relay operated once at key-on",
            "monitoring of relay contacts: high (99 %)",
            "IEC 61508-2:2010 Annex A, tables A.2 and A.14 (from memory)"),
    PUMP(
            Part.PUMP,
            "pump current against its band; line pressure against the hold pressure",
            "monitoring of an actuator: high (99 %)",
            "IEC 61508-2:2010 Annex A, table A.14 (from memory)"),
    HYDRAULICS(
            Part.HYDRAULICS,
            "line pressure against the hold pressure",
            "fault detection by the process: 0 to 99 %",
            "ISO 13849-1 Annex E (from memory)"),
    PICKUP(
            Part.PICKUP,
            "pulses against line pressure and against what a shaft can do",
            "rationality check of a sensor: medium (90 %)",
            "ISO 26262-5 Annex D (from memory)"),
    SENDER(
            Part.SENDER,
            "signal within its valid range; movement over a hand-over",
            "valid range: low (60 %); rationality check: medium (90 %)",
            "ISO 26262-5 Annex D (from memory)"),
    SUPPLY(
            Part.SUPPLY,
            "bus voltage against its limits",
            "control of the input voltage: low (60 %)",
            "IEC 61508-2:2010 Annex A, table A.9, and ISO 26262-5 Annex D (from memory)"),
    UNIT(
            Part.UNIT,
            "lateness of each tick; restart while the shaft turns; contact that leaves the pump running without the unit",
            "watchdog with separate time base, without window: low (60 %)",
            "IEC 61508-2:2010 Annex A, table A.10, and ISO 26262-5 Annex D (from memory)");

    private final Part part;
    private final String technique;
    private final String published;
    private final String source;

    DiagnosticTechnique(Part part, String technique, String published, String source) {
        this.part = part;
        this.technique = technique;
        this.published = published;
        this.source = source;
    }

    /** By part, those that were tried. */
    static List<Coverage> coverage(Build build, List<FaultRun> singles) {
        return Arrays.stream(values())
                .map(technique -> technique.of(build, singles))
                .filter(coverage -> coverage.runs() > 0)
                .toList();
    }

    private Coverage of(Build build, List<FaultRun> singles) {
        Map<FaultKind, List<FaultRun>> byKind = singles.stream()
                .filter(run -> run.fault().kind().part() == part)
                .collect(Collectors.groupingBy(run -> run.fault().kind()));
        int foundModes = 0;
        int runs = 0;
        int foundRuns = 0;
        for (List<FaultRun> mode : byKind.values()) {
            int found = (int)
                    mode.stream().filter(run -> foundBeforeHarm(build, run)).count();
            foundModes += found == mode.size() ? 1 : 0;
            foundRuns += found;
            runs += mode.size();
        }
        return new Coverage(part, technique, byKind.size(), foundModes, runs, foundRuns, published, source);
    }

    private static boolean foundBeforeHarm(Build build, FaultRun run) {
        return run.outcome().covered() && !Overpressure.is(build, run.highestPressurePa());
    }
}
