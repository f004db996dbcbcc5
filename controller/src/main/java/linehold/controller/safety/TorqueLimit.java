package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;

/**
 * LH-PR-5: the motor torque that the engaged apply elements can carry at a line pressure, share and safety factor counted.
 * The gear is not known, so every element that may be engaged counts.
 */
public final class TorqueLimit {
    private final double firstNmPerPa;
    private final double firstTouchPa;
    private final double topNmPerPa;
    private final double topTouchPa;
    private final double reverseNmPerPa;
    private final double reverseTouchPa;

    public TorqueLimit(Calibration calibration) {
        firstNmPerPa = calibration.get(Key.FIRST_TORQUE_PER_PRESSURE);
        firstTouchPa = calibration.get(Key.FIRST_TOUCH_PRESSURE);
        topNmPerPa = calibration.get(Key.TOP_TORQUE_PER_PRESSURE);
        topTouchPa = calibration.get(Key.TOP_TOUCH_PRESSURE);
        reverseNmPerPa = calibration.get(Key.REVERSE_TORQUE_PER_PRESSURE);
        reverseTouchPa = calibration.get(Key.REVERSE_TOUCH_PRESSURE);
    }

    /** Weaker of the first-gear and the top-gear element, N·m; 0 while the pressure is unknown (NaN). */
    public double forwardNm(double pressurePa) {
        return Math.min(carried(firstNmPerPa, firstTouchPa, pressurePa), carried(topNmPerPa, topTouchPa, pressurePa));
    }

    /** The reverse element, N·m; 0 while the pressure is unknown (NaN). */
    public double reverseNm(double pressurePa) {
        return carried(reverseNmPerPa, reverseTouchPa, pressurePa);
    }

    private static double carried(double nmPerPa, double touchPa, double pressurePa) {
        return pressurePa > touchPa ? nmPerPa * (pressurePa - touchPa) : 0;
    }
}
