package linehold.simulator.build;

import java.util.List;

/**
 * What "held" means for this build.
 *
 * @param holdPressurePa lowest line pressure allowed while an element is engaged, Pa
 * @param safetyFactor lowest allowed capacity over demand
 * @param engagementWarmS longest engagement from 20 °C up, s
 * @param engagementColdS longest engagement at −20 °C, s (linear between)
 * @param oilTemperaturesC oil temperatures every drive is proved at, °C
 * @param uncoveredFaults faults that the build does not claim to cover; empty claims all
 */
public record LimitsSpec(
        double holdPressurePa,
        double safetyFactor,
        double engagementWarmS,
        double engagementColdS,
        List<Double> oilTemperaturesC,
        List<Word> uncoveredFaults) {
    /**
     * A word that only its reader can judge.
     *
     * @param text as it stands in the file
     * @param place file, line and column, for a message
     */
    public record Word(String text, String place) {}

    public LimitsSpec {
        oilTemperaturesC = List.copyOf(oilTemperaturesC);
        uncoveredFaults = List.copyOf(uncoveredFaults);
    }

    /** Longest engagement allowed at an oil temperature, s. */
    public double engagementLimitS(double oilC) {
        double warmth = Math.min(1, Math.max(0, (oilC + 20) / 40));
        return engagementColdS + (engagementWarmS - engagementColdS) * warmth;
    }
}
