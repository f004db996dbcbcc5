package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.signal.Confirmation;

/**
 * Pressure as a witness for the electric pump, while a readback or a current sensor denies that it runs. With the shaft
 * standing nothing else makes pressure: it shows the pump at work when it rises from half to all of the hold pressure, or
 * holds for longer than stored oil can.
 */
final class PressureEvidence {
    private final double holdPa;
    private final Confirmation held;
    private boolean wasLow;

    PressureEvidence(Calibration calibration) {
        holdPa = calibration.get(Key.HOLD_PRESSURE);
        held = new Confirmation(calibration.ns(Key.PUMP_EVIDENCE_TIME), 0);
    }

    /**
     * @param asked whether the pump is told to run, the shaft stands, and something denies that the pump runs
     * @param pressurePa line pressure, Pa; NaN while unknown, which shows nothing
     */
    boolean update(long nowNs, boolean asked, double pressurePa) {
        boolean holds = asked && pressurePa >= holdPa;
        wasLow = asked && (wasLow || pressurePa < holdPa / 2);
        boolean heldForLong = held.update(holds, nowNs);
        return holds && (wasLow || heldForLong);
    }
}
