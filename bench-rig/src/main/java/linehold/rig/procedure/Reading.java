package linehold.rig.procedure;

import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.Range;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.speed.ShaftSpeed;

/** What a step can see at one tick. One frame, filled anew at every tick. */
final class Reading {
    private final Calibration calibration;
    private final ShaftSpeed shaftSpeed;
    private final boolean oilFitted;
    private final boolean rangeFitted;
    private final double nominalBusVolts;

    private long stepSinceNs;
    private long edgesAtStep;
    private boolean first;
    private Answer answer;
    private double typedOilC = Double.NaN;

    long nowNs;
    long edges;
    long lastEdgeNs;
    double senderVolts;
    double senderSupplyVolts;
    double senderFraction;
    /** Line pressure by the sender, Pa; NaN where it gives no number. */
    double pressurePa;

    double mainVolts;
    double standbyVolts;
    double busVolts;
    double amps;
    double oilC;
    boolean keyOn;
    boolean brake;
    Range range;
    /** What the controller has decided at this tick; only where it decides. */
    Outputs decided;

    Reading(Calibration calibration) {
        this.calibration = calibration;
        shaftSpeed = new ShaftSpeed(
                2 * Math.PI / calibration.get(Key.PULSES_PER_REVOLUTION),
                calibration.get(Key.HIGHEST_SHAFT_SPEED),
                calibration.get(Key.HIGHEST_FALL_RATE),
                calibration.ns(Key.CONTROL_PERIOD));
        oilFitted = calibration.is(Key.OIL_TEMPERATURE_FITTED);
        rangeFitted = calibration.is(Key.RANGE_FITTED);
        nominalBusVolts = calibration.get(Key.NOMINAL_BUS_VOLTAGE);
    }

    void take(long tickNs, Inputs in) {
        nowNs = tickNs;
        edges = in.pickupEdgeCount;
        lastEdgeNs = in.pickupLastEdgeNs;
        shaftSpeed.update(tickNs, edges, lastEdgeNs);
        senderVolts = in.pressureSenderVolts;
        senderSupplyVolts = in.pressureSenderSupplyVolts;
        senderFraction = senderVolts / senderSupplyVolts;
        double zero = calibration.get(Key.SENDER_ZERO_FRACTION);
        double span = calibration.get(Key.SENDER_FULL_SCALE_FRACTION) - zero;
        pressurePa = calibration.is(Key.SENDER_FITTED)
                ? (senderFraction - zero) / span * calibration.get(Key.SENDER_FULL_SCALE)
                : Double.NaN;
        mainVolts = in.mainContactVolts;
        standbyVolts = in.standbyContactVolts;
        busVolts = Double.isFinite(in.busVolts) ? in.busVolts : nominalBusVolts;
        amps = in.pumpCurrentAmps;
        oilC = oilFitted ? in.oilTemperatureC : typedOilC;
        keyOn = in.keyOn;
        brake = in.brakeApplied;
        range = rangeFitted ? in.selectedRange : null;
        decided = null;
    }

    void beginStep() {
        stepSinceNs = nowNs;
        edgesAtStep = edges;
        first = true;
        answer = null;
    }

    void endTick() {
        first = false;
    }

    void answer(Answer given) {
        answer = given;
    }

    void typeOilC(double value) {
        typedOilC = value;
    }

    /** Whether this is the first tick of the step: its command shows in the readings only from the next one on. */
    boolean first() {
        return first;
    }

    /** Time since the step's command was given, s. */
    double stepS() {
        return (nowNs - stepSinceNs) * 1e-9;
    }

    long edgesInStep() {
        return edges - edgesAtStep;
    }

    double shaftRadPerS() {
        return shaftSpeed.radPerS();
    }

    boolean answered() {
        return answer != null;
    }

    /** What was answered; NaN before. */
    double answerValue() {
        return answer == null ? Double.NaN : answer.value();
    }

    /** Whether the voltage is that behind a closed contact. */
    boolean closed(double volts) {
        return volts > calibration.get(Key.CONTACT_CLOSED_FRACTION) * busVolts;
    }

    /** Pump current limits are given at nominal voltage and follow the bus. */
    double amps(Key key) {
        return calibration.get(key) * busVolts / nominalBusVolts;
    }
}
