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

    /** Up to this share of bus voltage a readback shows nothing; assumed: above offset and noise. */
    private static final double SILENT_FRACTION = 0.1;

    private final double closedFraction;
    private final double weldedFraction;
    private final double nominalBusVolts;
    private final boolean standbyFitted;
    private final Confirmation mainSilent;
    private final Confirmation standbySilent;
    private boolean judgeable;
    private boolean mainShows;
    private boolean standbyShows;
    private boolean fed;
    private boolean full;
    private boolean mainLost;
    private boolean standbyLost;

    ContactVoltage(Calibration calibration) {
        closedFraction = calibration.get(Key.CONTACT_CLOSED_FRACTION);
        weldedFraction = calibration.get(Key.CONTACT_WELDED_FRACTION);
        nominalBusVolts = calibration.get(Key.NOMINAL_BUS_VOLTAGE);
        standbyFitted = calibration.is(Key.STANDBY_RELAY_FITTED);
        long confirmNs = calibration.ns(Key.RELAY_READBACK_TIME);
        mainSilent = new Confirmation(confirmNs, 0);
        standbySilent = new Confirmation(confirmNs, 0);
    }

    void read(PumpSigns signs) {
        double supplyVolts = Double.isFinite(signs.busVolts) ? signs.busVolts : nominalBusVolts;
        judgeable = supplyVolts >= LEAST_BUS_VOLTS;
        double main = signs.mainContactVolts;
        double standby = standbyFitted ? signs.standbyContactVolts : 0;
        mainShows = main > SILENT_FRACTION * supplyVolts;
        standbyShows = standby > SILENT_FRACTION * supplyVolts;
        fed = main > closedFraction * supplyVolts || standby > closedFraction * supplyVolts;
        full = main > weldedFraction * supplyVolts || standby > weldedFraction * supplyVolts;
    }

    /**
     * Finds a readback that shows nothing although the pump is fed.
     *
     * @param anyRelayOn whether a relay shall feed the pump
     * @param pumpRuns whether pump current or pressure shows that the pump is fed, whatever the readbacks say
     */
    void judge(long nowNs, boolean anyRelayOn, boolean pumpRuns) {
        boolean shouldRead = judgeable && anyRelayOn && (fed || pumpRuns);
        mainLost = mainSilent.update(shouldRead && !mainShows, nowNs) || mainLost && !mainShows;
        standbyLost = standbySilent.update(standbyFitted && shouldRead && !standbyShows, nowNs)
                || standbyLost && !standbyShows;
    }

    /** Whether the bus is high enough to tell a closed contact from an open one. */
    boolean judgeable() {
        return judgeable;
    }

    /** Whether the voltage behind the contacts is that of a closed contact. */
    boolean fed() {
        return fed;
    }

    /** Whether some voltage is read, but less than behind a sound contact. */
    boolean weak() {
        return !fed && !silent();
    }

    /** Whether no readback shows anything. */
    boolean silent() {
        return !mainShows && !standbyShows;
    }

    /** Whether bus voltage stands behind the contacts: more than a pump that coasts feeds back. */
    boolean full() {
        return full;
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
