package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;

/** LH-PR-3: PRIME takes longer than it may until pressure holds. The time starts when the key-on test is over. */
public final class PrimeCheck {
    private final Calibration calibration;
    private final double holdPa;
    private final HeldFault failed;
    private boolean priming;
    private long sinceNs;

    public PrimeCheck(Calibration calibration) {
        this.calibration = calibration;
        holdPa = calibration.get(Key.HOLD_PRESSURE);
        failed = new HeldFault(calibration.ns(Key.PRESSURE_RETURN_TIME));
    }

    /**
     * @param isPriming in PRIME with the key-on test over
     * @param pressurePa line pressure, Pa; NaN while unknown, which fails nothing: time then ends the prime (LH-SW-9)
     * @param oilTemperatureC °C; NaN while unknown
     * @param letGo whether the driver asks for no torque
     */
    public void update(long nowNs, boolean isPriming, double pressurePa, double oilTemperatureC, boolean letGo) {
        if (isPriming && !priming) {
            sinceNs = nowNs;
        }
        priming = isPriming;
        double limitNs = 1e9 * calibration.at(Key.PRIME_LIMIT_TIME, oilTemperatureC);
        boolean tooLong = priming && nowNs - sinceNs >= limitNs;
        failed.update(nowNs, tooLong && pressurePa < holdPa, pressurePa >= holdPa, letGo);
    }

    public void clearAtKeyOff() {
        failed.clear();
    }

    public boolean failed() {
        return failed.active();
    }
}
