package linehold.simulator.size;

import java.util.List;
import linehold.simulator.build.InstallationKey;

/** What standing costs: heat into the oil and energy from the 12 V supply. */
final class HeatLines {
    /** Mineral oil near 100 °C; from memory. */
    private static final double HEAT_CAPACITY_J_PER_KG_K = 2000;

    private static final double HOUR_S = 3600;

    private HeatLines() {}

    static List<SizeLine> of(Standing at) {
        double shaftWatts = at.build.electricPump().motorConstantVsPerRad() * at.hot.amps() * at.hot.speedRadPerS();
        return List.of(
                at.line(Topic.HEAT, "heat-into-oil", "Heat that the pump puts into the oil, hottest oil")
                        .formula("P = K·i·w: all shaft power ends as heat in the oil")
                        .with(
                                "K·i",
                                Measure.SMALL_TORQUE,
                                at.build.electricPump().motorConstantVsPerRad() * at.hot.amps())
                        .with("w", Measure.SPEED, at.hot.speedRadPerS())
                        .source("energy balance")
                        .information(Measure.POWER, shaftWatts),
                warming(at, shaftWatts),
                energy(at, "energy-hot", "12 V energy for an hour of standing, hottest oil", at.hotC, at.hot),
                energy(at, "energy-cold", "12 V energy for an hour of standing, coldest oil", at.coldC, at.cold));
    }

    private static SizeLine warming(Standing at, double watts) {
        Draft draft = at.line(Topic.HEAT, "oil-warming", "How fast that warms the oil if nothing cools it")
                .formula("dT/dt = P/(ρ·V·c), c = 2.0 kJ/(kg·K)")
                .source("energy balance; c of mineral oil from memory")
                .note("Housing and cooler take most of it; this is the upper bound.")
                .with("P", Measure.POWER, watts)
                .with("ρ", Measure.DENSITY, at.hot.oil().densityKgPerM3());
        double volume = draft.take(InstallationKey.OIL_VOLUME, "V", Measure.VOLUME);
        return draft.information(
                Measure.WARMING, watts / (at.hot.oil().densityKgPerM3() * volume * HEAT_CAPACITY_J_PER_KG_K));
    }

    private static SizeLine energy(Standing at, String key, String title, double oilC, PumpPoint point) {
        return at.line(Topic.HEAT, key, title)
                .formula("V·i·3600 s, losses of battery and cable included")
                .with("oil", Measure.TEMPERATURE, oilC)
                .with("V", Measure.VOLTAGE, at.build.supply().openVolts())
                .with("i", Measure.CURRENT, point.amps())
                .source("energy balance")
                .information(Measure.ENERGY, at.build.supply().openVolts() * point.amps() * HOUR_S);
    }
}
