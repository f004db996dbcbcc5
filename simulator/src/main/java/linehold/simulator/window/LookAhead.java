package linehold.simulator.window;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;

/**
 * What the early switch-on from a falling speed (LH-SW-6) needs to know, as curves over oil temperature.
 *
 * @param oilC oil temperatures, °C, rising
 * @param carryRadPerS lowest speed at which the internal pump alone keeps the hold pressure, rad/s
 * @param leadS time from the command until the electric pump carries the line, pickup latency not counted, s
 */
public record LookAhead(double[] oilC, double[] carryRadPerS, double[] leadS) {
    /** For a search that does not look ahead. */
    static final LookAhead NONE = new LookAhead(new double[] {0}, new double[] {0}, new double[] {0});

    /** The controller refuses a carry speed above the switch-on speed. */
    LookAhead limitedTo(double onRadPerS) {
        return new LookAhead(oilC, limited(carryRadPerS, onRadPerS), leadS);
    }

    /** Sets both curves; what could not be computed (NaN) becomes the most that the calibration allows. */
    void put(Calibration.Builder builder) {
        builder.setCurve(Key.CARRY_SPEED, oilC, limited(carryRadPerS, Key.CARRY_SPEED.most()));
        builder.setCurve(Key.PUMP_LEAD_TIME, oilC, limited(leadS, Key.PUMP_LEAD_TIME.most()));
    }

    private static double[] limited(double[] values, double most) {
        double[] limited = values.clone();
        for (int i = 0; i < limited.length; i++) {
            limited[i] = limited[i] <= most ? limited[i] : most;
        }
        return limited;
    }
}
