package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.signal.Confirmation;

/**
 * LH-RL-4: pump current against its bands, where it is measured.
 *
 * <pre>i = (V − K·w)/R: V/R at standstill of the pump, falling as it spins up, then what the pressure asks for</pre>
 *
 * <p>The pump's speed is not measured, so the bands hold over the time since switching on: until the spin-up time is over
 * only "no current" is judged. The bands are given at nominal bus voltage and follow the bus in proportion. Source: the
 * standard equations of a permanent-magnet motor (e.g. Kluever, Dynamic Systems, ch. 10).
 */
final class PumpCurrentCheck {
    private final Calibration calibration;
    private final boolean fitted;
    private final double nominalBusVolts;
    private final double openAmps;
    private final double dryAmps;
    private final double stalledAmps;
    private final double holdPa;
    private final Confirmation noCurrent;
    private final Confirmation lowCurrent;
    private final Confirmation highCurrent;
    private final Confirmation senseless;
    private final PressureEvidence evidence;
    private final HeldFault open;
    private final HeldFault dry;
    private final HeldFault stalled;
    private final StallRest rest;

    private boolean on;
    private long onSinceNs;
    private boolean sensorLost;
    private boolean flows;

    PumpCurrentCheck(Calibration calibration) {
        this.calibration = calibration;
        fitted = calibration.is(Key.PUMP_CURRENT_FITTED);
        nominalBusVolts = calibration.get(Key.NOMINAL_BUS_VOLTAGE);
        openAmps = calibration.get(Key.PUMP_CURRENT_OPEN);
        dryAmps = calibration.get(Key.PUMP_CURRENT_DRY);
        stalledAmps = calibration.get(Key.PUMP_CURRENT_STALLED);
        holdPa = calibration.get(Key.HOLD_PRESSURE);
        long confirmNs = calibration.ns(Key.PUMP_CURRENT_CONFIRM_TIME);
        noCurrent = new Confirmation(confirmNs, 0);
        lowCurrent = new Confirmation(calibration.ns(Key.PUMP_DRY_CONFIRM_TIME), 0);
        highCurrent = new Confirmation(confirmNs, 0);
        senseless = new Confirmation(confirmNs, 0);
        evidence = new PressureEvidence(calibration);
        long returnNs = calibration.ns(Key.PRESSURE_RETURN_TIME);
        open = new HeldFault(returnNs);
        dry = new HeldFault(returnNs);
        stalled = new HeldFault(returnNs);
        rest = new StallRest(calibration);
    }

    /**
     * @param anyRelayOn whether a relay was told to feed the pump
     * @param still whether the shaft stands
     * @param voltage the voltage behind the contacts
     */
    void update(long nowNs, PumpSigns signs, boolean anyRelayOn, boolean still, ContactVoltage voltage) {
        if (!fitted) {
            return;
        }
        if (anyRelayOn && !on) {
            onSinceNs = nowNs;
        }
        on = anyRelayOn;
        double scale = Double.isFinite(signs.busVolts) ? signs.busVolts / nominalBusVolts : 1;
        double amps = signs.amps;
        boolean some = amps > openAmps * scale;
        boolean holdsAtRest = still && signs.pressurePa >= holdPa;
        boolean denied = on && voltage.full() && !some && still;
        sensorLost |= evidence.update(nowNs, denied, signs.pressurePa);
        judgeSensor(nowNs, amps, some, voltage);
        flows = some && !sensorLost;
        judgePump(nowNs, signs, scale, voltage, holdsAtRest);
    }

    /** A sensor that contradicts everything else is set aside until key-off. */
    private void judgeSensor(long nowNs, double amps, boolean some, ContactVoltage voltage) {
        boolean impossible = !(amps >= -openAmps) || amps == Double.POSITIVE_INFINITY;
        boolean fromNothing = some && !on && !voltage.fed() && !voltage.blind();
        sensorLost |= senseless.update(impossible || fromNothing, nowNs);
    }

    private void judgePump(long nowNs, PumpSigns signs, double scale, ContactVoltage voltage, boolean holdsAtRest) {
        double spinUpNs = 1e9 * calibration.at(Key.PUMP_SPIN_UP_TIME, signs.oilTemperatureC);
        boolean judged = on && !sensorLost && voltage.judgeable() && voltage.fed();
        boolean settled = judged && nowNs - onSinceNs >= spinUpNs;
        boolean pressureHolds = signs.pressurePa >= holdPa;
        boolean none = judged && voltage.full() && !flows && !holdsAtRest;
        boolean low = settled && flows && signs.amps < dryAmps * scale && !pressureHolds;
        boolean high = settled && signs.amps >= stalledAmps * scale && !holdsAtRest;
        boolean good = settled && flows && !low && !high;

        boolean stallSeen = highCurrent.update(high, nowNs);
        open.update(nowNs, noCurrent.update(none, nowNs), good, signs.letGo);
        dry.update(nowNs, lowCurrent.update(low, nowNs), good, signs.letGo);
        stalled.update(nowNs, stallSeen, good, signs.letGo);
        rest.update(nowNs, stallSeen, good, signs.internalPumpCarries);
    }

    void clearAtKeyOff() {
        sensorLost = false;
        open.clear();
        dry.clear();
        stalled.clear();
        rest.clear();
    }

    /** Whether the sensor, where it can be believed, shows pump current. */
    boolean flows() {
        return flows;
    }

    /** Whether current is missing and it is not yet known whether the pump or the sensor is to blame. */
    boolean missing() {
        return usable() && !flows && !open.active();
    }

    /** Whether the sensor can be believed. */
    boolean usable() {
        return fitted && !sensorLost;
    }

    boolean sensorLost() {
        return sensorLost;
    }

    /** Voltage, but no current. */
    boolean open() {
        return open.active();
    }

    boolean dry() {
        return dry.active();
    }

    boolean stalled() {
        return stalled.active();
    }

    /** Whether a stalled pump rests now. */
    boolean resting() {
        return rest.resting();
    }
}
