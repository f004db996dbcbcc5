package linehold.rig.procedure;

import java.util.Collections;
import linehold.controller.calibration.Key;

/**
 * What holds in every step, whatever it measures.
 *
 * @param highestPa line pressure
 * @param stalledAmps pump current at nominal voltage; follows the bus
 * @param hottestC oil
 * @param busLowVolts lowest bus voltage
 * @param busHighVolts highest bus voltage
 */
public record Limits(double highestPa, double stalledAmps, double hottestC, double busLowVolts, double busHighVolts) {
    /** Above relief and every set pressure: valves override with flow, and a sender errs; assumed. */
    private static final double PRESSURE_RESERVE = 1.25;
    /** Above the hottest oil that the build is proved at, K; assumed. */
    private static final double OIL_RESERVE_K = 10;

    static Limits of(Bench bench) {
        double setPa = Math.max(
                bench.build().regulator().setDrivePa(),
                bench.build().regulator().setParkNeutralPa());
        return new Limits(
                PRESSURE_RESERVE * Math.max(bench.build().electricPump().reliefPa(), setPa),
                bench.calibration().get(Key.PUMP_CURRENT_STALLED),
                Collections.max(bench.build().limits().oilTemperaturesC()) + OIL_RESERVE_K,
                bench.calibration().get(Key.BUS_LOW_VOLTAGE),
                bench.calibration().get(Key.BUS_HIGH_VOLTAGE));
    }
}
