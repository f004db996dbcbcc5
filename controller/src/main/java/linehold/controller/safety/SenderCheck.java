package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.signal.Confirmation;

/**
 * LH-PR-1: line pressure from a ratiometric sender, and whether the sender is lost. Ratiometric 10 to 90 % of supply is
 * common practice of makers of such senders.
 */
public final class SenderCheck {
    private final boolean fitted;
    private final double zeroFraction;
    private final double pascalPerFraction;
    private final double leastFraction;
    private final double mostFraction;
    private final Confirmation lost;
    private double pressurePa = Double.NaN;

    public SenderCheck(Calibration calibration) {
        fitted = calibration.is(Key.SENDER_FITTED);
        zeroFraction = calibration.get(Key.SENDER_ZERO_FRACTION);
        pascalPerFraction = calibration.get(Key.SENDER_FULL_SCALE)
                / (calibration.get(Key.SENDER_FULL_SCALE_FRACTION) - zeroFraction);
        leastFraction = calibration.get(Key.SENDER_LEAST_FRACTION);
        mostFraction = calibration.get(Key.SENDER_MOST_FRACTION);
        lost = new Confirmation(calibration.ns(Key.SENDER_LOST_CONFIRM_TIME), calibration.ns(Key.PRESSURE_RETURN_TIME));
    }

    /** Takes signal and supply, V; NaN counts as out of band. */
    public void update(long nowNs, double senderVolts, double supplyVolts) {
        if (!fitted) {
            return;
        }
        double fraction = senderVolts / supplyVolts;
        boolean inBand = fraction >= leastFraction && fraction <= mostFraction;
        if (lost.update(!inBand, nowNs)) {
            pressurePa = Double.NaN;
        } else if (inBand) {
            pressurePa = (fraction - zeroFraction) * pascalPerFraction;
        }
    }

    /**
     * Line pressure, Pa gauge; the last good value while a loss is not yet confirmed, NaN while lost, before the first good
     * value, or where no sender is fitted.
     */
    public double pressurePa() {
        return pressurePa;
    }

    public boolean lost() {
        return lost.confirmed();
    }
}
