package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.signal.Confirmation;

/**
 * LH-RL-1 and LH-RL-2 for one relay, judged by the voltage behind its contact and in terms of the pump, so that the wiring
 * of the contact (LH-RL-6) does not matter.
 */
public final class RelayCheck {
    private final double closedFraction;
    private final double nominalBusVolts;
    private final Confirmation notClosing;
    private final Confirmation notOpening;
    private boolean stuckOff;

    public RelayCheck(Calibration calibration) {
        closedFraction = calibration.get(Key.CONTACT_CLOSED_FRACTION);
        nominalBusVolts = calibration.get(Key.NOMINAL_BUS_VOLTAGE);
        notClosing = new Confirmation(calibration.ns(Key.RELAY_READBACK_TIME), 0);
        notOpening = new Confirmation(calibration.ns(Key.WELDED_CONFIRM_TIME), 0);
    }

    /**
     * @param relayWanted whether this relay shall feed the pump
     * @param pumpWanted whether any relay shall
     * @param contactVolts voltage behind the contact, V; NaN counts as none
     * @param busVolts voltage of the bus, V; NaN counts as nominal
     */
    public void update(long nowNs, boolean relayWanted, boolean pumpWanted, double contactVolts, double busVolts) {
        double supplyVolts = Double.isFinite(busVolts) ? busVolts : nominalBusVolts;
        boolean fed = contactVolts > closedFraction * supplyVolts;
        // Latched: where both contacts feed one wire, the standby relay's voltage would acquit the main relay.
        stuckOff |= notClosing.update(relayWanted && !fed, nowNs);
        // While any relay feeds the pump nothing can be learnt about a weld: the last finding stands.
        if (!pumpWanted) {
            notOpening.update(fed, nowNs);
        } else if (!notOpening.confirmed()) {
            notOpening.reset();
        }
    }

    public void clearAtKeyOff() {
        stuckOff = false;
    }

    /** LH-RL-1, until key-off. */
    public boolean stuckOff() {
        return stuckOff;
    }

    /** LH-RL-2. */
    public boolean welded() {
        return notOpening.confirmed();
    }
}
