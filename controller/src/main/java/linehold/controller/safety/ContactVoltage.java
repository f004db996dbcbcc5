package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.signal.Confirmation;

/**
 * The voltage behind the pump relays' contacts, read over one wire a contact. Both contacts feed one wire to the pump, so
 * the readings differ only where a readback wire is broken; it then reads nothing.
 */
final class ContactVoltage {
    /** Below this bus voltage no contact is judged, V: lowest supply voltage of any code of ISO 16750-2. */
    private static final double LEAST_BUS_VOLTS = 6;

    private final double closedFraction;
    private final double nominalBusVolts;
    private final boolean standbyFitted;
    private final Confirmation mainSilent;
    private final Confirmation standbySilent;
    private boolean judgeable;
    private boolean mainReads;
    private boolean standbyReads;
    private boolean mainLost;
    private boolean standbyLost;

    ContactVoltage(Calibration calibration) {
        closedFraction = calibration.get(Key.CONTACT_CLOSED_FRACTION);
        nominalBusVolts = calibration.get(Key.NOMINAL_BUS_VOLTAGE);
        standbyFitted = calibration.is(Key.STANDBY_RELAY_FITTED);
        long confirmNs = calibration.ns(Key.RELAY_READBACK_TIME);
        mainSilent = new Confirmation(confirmNs, 0);
        standbySilent = new Confirmation(confirmNs, 0);
    }

    void read(PumpSigns signs) {
        double supplyVolts = Double.isFinite(signs.busVolts) ? signs.busVolts : nominalBusVolts;
        judgeable = supplyVolts >= LEAST_BUS_VOLTS;
        double closedVolts = closedFraction * supplyVolts;
        mainReads = signs.mainContactVolts > closedVolts;
        standbyReads = standbyFitted && signs.standbyContactVolts > closedVolts;
    }

    /**
     * Finds a readback that shows nothing although the pump is fed.
     *
     * @param anyRelayOn whether a relay shall feed the pump
     * @param pumpRuns whether pump current or pressure shows that the pump is fed, whatever the readbacks say
     */
    void judge(long nowNs, boolean anyRelayOn, boolean pumpRuns) {
        boolean shouldRead = judgeable && anyRelayOn && (fed() || pumpRuns);
        mainLost = mainSilent.update(shouldRead && !mainReads, nowNs) || mainLost && !mainReads;
        standbyLost = standbySilent.update(standbyFitted && shouldRead && !standbyReads, nowNs)
                || standbyLost && !standbyReads;
    }

    /** Whether the bus is high enough to tell a closed contact from an open one. */
    boolean judgeable() {
        return judgeable;
    }

    /** Whether voltage is read behind the contacts. */
    boolean fed() {
        return mainReads || standbyReads;
    }

    /** Whether no readback is left. */
    boolean blind() {
        return mainLost && (standbyLost || !standbyFitted);
    }

    boolean mainLost() {
        return mainLost;
    }

    boolean standbyLost() {
        return standbyLost;
    }
}
