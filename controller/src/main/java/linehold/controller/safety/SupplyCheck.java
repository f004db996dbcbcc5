package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.signal.Confirmation;

/** LH-EL-1: bus voltage out of its bounds. It informs only: the pump command stands. */
public final class SupplyCheck {
    private final double lowVolts;
    private final double highVolts;
    private final Confirmation low;
    private final Confirmation high;

    public SupplyCheck(Calibration calibration) {
        lowVolts = calibration.get(Key.BUS_LOW_VOLTAGE);
        highVolts = calibration.get(Key.BUS_HIGH_VOLTAGE);
        long confirmNs = calibration.ns(Key.BUS_CONFIRM_TIME);
        low = new Confirmation(confirmNs, confirmNs);
        high = new Confirmation(confirmNs, confirmNs);
    }

    /** Takes the bus voltage, V; NaN is neither low nor high. */
    public void update(long nowNs, double busVolts) {
        low.update(busVolts < lowVolts, nowNs);
        high.update(busVolts > highVolts, nowNs);
    }

    public boolean low() {
        return low.confirmed();
    }

    public boolean high() {
        return high.confirmed();
    }
}
