package linehold.controller.switching;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;

/**
 * LH-SW-6: whether a falling speed reaches the carry speed, the lowest at which the internal pump alone holds pressure,
 * sooner than the electric pump could take over.
 */
public final class CarrySpeed {
    private final Calibration calibration;
    private final boolean enabled;
    private final double pulseAngleRad;

    public CarrySpeed(Calibration calibration) {
        this.calibration = calibration;
        enabled = calibration.is(Key.FALLING_SPEED_PREDICTION);
        pulseAngleRad = 2 * Math.PI / calibration.get(Key.PULSES_PER_REVOLUTION);
    }

    /**
     * @param speedRadPerS speed now, extrapolated from its last measurement, rad/s
     * @param slopeRadPerS2 its change, rad/s²; NaN while unknown, which predicts nothing
     * @param oilTemperatureC °C, NaN while unknown
     */
    public boolean near(double speedRadPerS, double slopeRadPerS2, double oilTemperatureC) {
        if (!enabled || !(slopeRadPerS2 < 0)) {
            return false;
        }
        double fallRadPerS = speedRadPerS - calibration.at(Key.CARRY_SPEED, oilTemperatureC);
        double pickupLatencyS = pulseAngleRad / speedRadPerS;
        double leadS = calibration.at(Key.PUMP_LEAD_TIME, oilTemperatureC) + pickupLatencyS;
        return fallRadPerS < -slopeRadPerS2 * leadS;
    }
}
