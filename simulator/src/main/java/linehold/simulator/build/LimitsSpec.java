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
 */
public record LimitsSpec(
        double holdPressurePa,
        double safetyFactor,
        double engagementWarmS,
        double engagementColdS,
        List<Double> oilTemperaturesC) {
    public LimitsSpec {
        oilTemperaturesC = List.copyOf(oilTemperaturesC);
    }

    /** Longest engagement allowed at an oil temperature, s. */
    public double engagementLimitS(double oilC) {
        double warmth = Math.min(1, Math.max(0, (oilC + 20) / 40));
        return engagementColdS + (engagementWarmS - engagementColdS) * warmth;
    }
}
