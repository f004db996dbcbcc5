package linehold.controller;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.safety.CodeStore;
import linehold.controller.safety.FrozenValue;
import linehold.controller.safety.LateTickCheck;
import linehold.controller.safety.NoisyPickupCheck;
import linehold.controller.safety.PickupLostCheck;
import linehold.controller.safety.PressureLossCheck;
import linehold.controller.safety.PrimeCheck;
import linehold.controller.safety.PumpFeed;
import linehold.controller.safety.PumpSigns;
import linehold.controller.safety.RestartCheck;
import linehold.controller.safety.SelfTestState;
import linehold.controller.safety.SenderCheck;
import linehold.controller.safety.SenderMotionCheck;
import linehold.controller.safety.StoredCodes;
import linehold.controller.safety.SupplyCheck;
import linehold.controller.safety.TorqueLimit;
import linehold.controller.safety.TroubleCode;
import linehold.controller.signal.Confirmation;
import linehold.controller.speed.ShaftSpeed;
import linehold.controller.switching.CarrySpeed;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.PumpSwitch;
import linehold.controller.switching.Situation;

/**
 * The firmware: one {@link #step} per control period decides whether the electric pump runs and what the motor may do. It
 * reads no clock, touches nothing outside its frames, allocates nothing, and gives bit-identical outputs for identical
 * inputs (LH-TK-1). Any doubt ends with the electric pump running.
 *
 * <p>A step sees (speed, pressure, temperature), finds faults, switches the pump along the one transition table, then
 * states what drive may do. Not safe for use by several threads at once.
 */
public final class Controller {
    /**
     * Control periods from the instant at which the pickup's edges show a shaft speed below the switch-on speed to the step
     * that runs the electric pump, in every state after PRIME and with no fault (LH-SW-1): the first step after that
     * instant does. A test tries it in every such state (SwitchOnContractTest).
     */
    public static final int SWITCH_ON_TICKS = 1;

    private final double switchOnRadPerS;
    private final double switchOffRadPerS;
    private final double wideningRadPerS;
    private final double standstillRadPerS;
    private final double brakeSwitchOnRadPerS;
    private final double handOverPa;
    private final double helpPa;
    private final double holdPa;
    private final boolean senderFitted;
    private final boolean normallyClosed;
    private final boolean oilTemperatureFitted;
    private final boolean brakeFitted;
    private final boolean rangeFitted;

    private final ShaftSpeed shaftSpeed;
    private final CarrySpeed carrySpeed;
    private final PumpSwitch pump;
    private final Situation situation = new Situation();
    private final Confirmation aboveSwitchOff;
    private final Confirmation standstill;
    private final Confirmation standstillWithoutPickup;

    private final LateTickCheck lateTick;
    private final NoisyPickupCheck noisyPickup;
    private final PickupLostCheck pickupLost;
    private final SenderCheck sender;
    private final PressureLossCheck pressureLoss;
    private final PrimeCheck prime;
    private final SenderMotionCheck senderMotion;
    private final SupplyCheck supply;
    private final RestartCheck restart = new RestartCheck();
    private final PumpFeed feed;
    private final PumpSigns signs = new PumpSigns();
    private final double[] frame = new double[FrozenValue.values().length];
    private final TorqueLimit torqueLimit;
    private final CodeStore codes = new CodeStore();

    /** The decision in force; also the answer to a refused step. */
    private final Outputs decision = new Outputs();

    private boolean started;
    private long lastNs;

    public Controller(Calibration calibration) {
        switchOnRadPerS = calibration.get(Key.SWITCH_ON_SPEED);
        switchOffRadPerS = calibration.get(Key.SWITCH_OFF_SPEED);
        wideningRadPerS = calibration.get(Key.SENDER_LOST_WIDENING);
        standstillRadPerS = calibration.get(Key.STANDSTILL_SPEED);
        brakeSwitchOnRadPerS = calibration.get(Key.BRAKE_SWITCH_ON_SPEED);
        handOverPa = calibration.get(Key.HAND_OVER_PRESSURE);
        helpPa = calibration.get(Key.HELP_PRESSURE);
        holdPa = calibration.get(Key.HOLD_PRESSURE);
        senderFitted = calibration.is(Key.SENDER_FITTED);
        normallyClosed = calibration.is(Key.NORMALLY_CLOSED_CONTACT);
        oilTemperatureFitted = calibration.is(Key.OIL_TEMPERATURE_FITTED);
        brakeFitted = calibration.is(Key.BRAKE_FITTED);
        rangeFitted = calibration.is(Key.RANGE_FITTED);

        shaftSpeed = new ShaftSpeed(
                2 * Math.PI / calibration.get(Key.PULSES_PER_REVOLUTION),
                calibration.get(Key.HIGHEST_SHAFT_SPEED),
                calibration.get(Key.HIGHEST_FALL_RATE),
                calibration.ns(Key.CONTROL_PERIOD));
        carrySpeed = new CarrySpeed(calibration);
        pump = new PumpSwitch(calibration);
        aboveSwitchOff = new Confirmation(calibration.ns(Key.SWITCH_OFF_CONFIRM_TIME), 0);
        standstill = new Confirmation(calibration.ns(Key.STANDSTILL_CONFIRM_TIME), 0);
        standstillWithoutPickup = new Confirmation(calibration.ns(Key.LOST_PICKUP_RUN_ON_TIME), 0);

        lateTick = new LateTickCheck(calibration);
        noisyPickup = new NoisyPickupCheck(calibration);
        pickupLost = new PickupLostCheck(calibration);
        sender = new SenderCheck(calibration);
        pressureLoss = new PressureLossCheck(calibration);
        prime = new PrimeCheck(calibration);
        senderMotion = new SenderMotionCheck(calibration);
        supply = new SupplyCheck(calibration);
        feed = new PumpFeed(calibration);
        torqueLimit = new TorqueLimit(calibration);
        decision.absentInputs = OptionalInput.absentBits(calibration);
    }

    /**
     * Decides one tick.
     *
     * @param nowNs monotonic time, ns, any origin; a step back in time changes nothing and repeats the last decision
     * @param in what the car shows; only read
     * @param out every field is overwritten
     */
    public void step(long nowNs, Inputs in, Outputs out) {
        if (started && nowNs - lastNs < 0) {
            decision.refusedTicks++;
        } else {
            if (started) {
                lateTick.update(nowNs - lastNs);
            }
            started = true;
            lastNs = nowNs;
            decide(nowNs, in);
        }
        out.copyFrom(decision);
    }

    private void decide(long nowNs, Inputs in) {
        double oilC = oilTemperatureFitted && Double.isFinite(in.oilTemperatureC) ? in.oilTemperatureC : Double.NaN;
        sender.update(nowNs, in.pressureSenderVolts, in.pressureSenderSupplyVolts);
        double pressurePa = usablePressurePa();
        double radPerS = seeSpeed(nowNs, in, pressurePa);
        boolean standing = radPerS < standstillRadPerS;
        boolean standstillConfirmed = confirmStandstill(nowNs, standing, in.keyOn);

        boolean pastPrime = pump.state() != PumpState.OFF && pump.state() != PumpState.PRIME;
        boolean atRest = standing || shaftSpeed.overdue();
        long lastEdgeNs = shaftSpeed.lastEdgeNs();
        pressureLoss.update(
                nowNs, pastPrime, pressurePa, atRest, lastEdgeNs, standstillConfirmed, in.torqueRequestNm, oilC);

        restart.update(!standing, feed.shaftStill(nowNs));
        situation.keyOn = in.keyOn;
        situation.restarted = restart.restarted();
        situation.standstillConfirmed = standstillConfirmed;
        situation.oilTemperatureC = oilC;
        situation.selfTestOver = feed.selfTestOver();
        judgeSpeed(nowNs, in, radPerS, oilC);
        judgePressure(pressurePa);
        pump.update(nowNs, situation);

        watchSender(nowNs, in, standstillConfirmed);
        pressurePa = usablePressurePa();
        collectCodes(nowNs, in);
        watchFeed(nowNs, in, pressurePa);
        decision.shaftSpeedRadPerS = radPerS;
        decision.linePressurePa = pressurePa;
        storeCodes(nowNs, in);
        command();
        permit(in, pressurePa, atRest);
    }

    /** NaN where no sender is fitted, or it is lost or suspect (LH-PR-1, LH-PR-4). */
    private double usablePressurePa() {
        return senderMotion.suspect() ? Double.NaN : sender.pressurePa();
    }

    /** LH-SP-1, LH-SP-2, LH-SP-3. A lost pickup counts as standstill. */
    private double seeSpeed(long nowNs, Inputs in, double pressurePa) {
        shaftSpeed.update(nowNs, in.pickupEdgeCount, in.pickupLastEdgeNs);
        noisyPickup.update(nowNs, shaftSpeed.rejectedNow());
        pickupLost.update(nowNs, shaftSpeed.fellTooFast(), shaftSpeed.acceptedEdges(), pressurePa);
        return pickupLost.active() ? 0 : shaftSpeed.radPerS();
    }

    /** LH-SW-9. Without a pickup the car may still roll, so the pump runs on for a long time after key-off. */
    private boolean confirmStandstill(long nowNs, boolean standing, boolean keyOn) {
        boolean bySpeed = standstill.update(standing, nowNs);
        boolean byTime = standstillWithoutPickup.update(pickupLost.active() && !keyOn, nowNs);
        return pickupLost.active() ? byTime : bySpeed;
    }

    /** LH-SW-1, LH-SW-2, LH-SW-6, LH-SW-7; with the sender lost the window widens upward (LH-PR-1). */
    private void judgeSpeed(long nowNs, Inputs in, double radPerS, double oilC) {
        double widening = sender.lost() || senderMotion.suspect() ? wideningRadPerS : 0;
        situation.belowSwitchOn = radPerS < switchOnRadPerS + widening;
        situation.aboveSwitchOff = radPerS > switchOffRadPerS + 2 * widening;
        situation.carrySpeedNear = carrySpeed.near(shaftSpeed.extrapolatedRadPerS(), shaftSpeed.slopeRadPerS2(), oilC);
        situation.braking = brakeFitted && in.brakeApplied && radPerS < brakeSwitchOnRadPerS;
        situation.handOverReady = aboveSwitchOff.update(situation.aboveSwitchOff, nowNs);
    }

    /** LH-SW-2, LH-SW-5, LH-SW-9, LH-PR-2. Pressure that is not known (NaN) neither holds nor is low. */
    private void judgePressure(double pressurePa) {
        situation.pressureKnown = !Double.isNaN(pressurePa);
        situation.pressureHolds = pressurePa >= holdPa;
        situation.pressureLow = pressurePa < helpPa;
        situation.pressureLost =
                pressureLoss.lostMoving() || pressureLoss.lostStanding() || feed.lost() || prime.failed();
        boolean speedAlone = !senderFitted || sender.lost() || senderMotion.suspect();
        situation.handOverReady &= speedAlone || pressurePa >= handOverPa;
    }

    /** LH-PR-4. In park and neutral both pumps may reach the same regulated pressure: only a driving range tells. */
    private void watchSender(long nowNs, Inputs in, boolean standstillConfirmed) {
        double sensedPa = sender.pressurePa();
        PumpState state = pump.state();
        boolean engaged = rangeFitted && (in.selectedRange == Range.DRIVE || in.selectedRange == Range.REVERSE);
        senderMotion.watchPrime(nowNs, sensedPa, state == PumpState.PRIME, feed.selfTest());
        senderMotion.watchHandOver(
                nowNs,
                sensedPa,
                state == PumpState.ELECTRIC && standstillConfirmed,
                state == PumpState.INTERNAL && engaged);
    }

    /** LH-RL-1 to LH-RL-5, LH-PR-3. */
    private void watchFeed(long nowNs, Inputs in, double pressurePa) {
        boolean priming = pump.state() == PumpState.PRIME;
        signs.wanted = pump.pumpWanted();
        signs.priming = priming;
        signs.mainContactVolts = in.mainContactVolts;
        signs.standbyContactVolts = in.standbyContactVolts;
        signs.busVolts = in.busVolts;
        signs.amps = in.pumpCurrentAmps;
        signs.pressurePa = pressurePa;
        signs.oilTemperatureC = situation.oilTemperatureC;
        signs.edges = in.pickupEdgeCount;
        signs.pickupLost = pickupLost.active();
        signs.internalPumpCarries = !situation.belowSwitchOn && situation.pressureHolds && !situation.helpWanted();
        signs.letGo = pressureLoss.letGo();
        signs.bothRelays = codes.wantsBothRelays();
        feed.update(nowNs, signs);
        prime.update(nowNs, priming && feed.selfTestOver(), pressurePa, situation.oilTemperatureC, signs.letGo);
        if (pump.state() == PumpState.OFF) {
            feed.clearAtKeyOff();
            prime.clearAtKeyOff();
        }
        feed.report(codes);
        codes.set(TroubleCode.PRIME_FAILED, prime.failed());
    }

    private void collectCodes(long nowNs, Inputs in) {
        if (pump.state() == PumpState.OFF) {
            lateTick.clearAtKeyOff();
            senderMotion.clearAtKeyOff();
            restart.clearAtKeyOff();
        }
        supply.update(nowNs, in.busVolts);
        codes.set(TroubleCode.LATE_TICK, lateTick.active());
        codes.set(TroubleCode.PICKUP_NOISY, noisyPickup.active());
        codes.set(TroubleCode.PICKUP_LOST, pickupLost.active());
        codes.set(TroubleCode.SENDER_LOST, sender.lost());
        codes.set(TroubleCode.SENDER_SUSPECT, senderMotion.suspect());
        codes.set(TroubleCode.PRESSURE_LOST_MOVING, pressureLoss.lostMoving());
        codes.set(TroubleCode.PRESSURE_LOST_STANDING, pressureLoss.lostStanding());
        codes.set(TroubleCode.SUPPLY_LOW, supply.low());
        codes.set(TroubleCode.SUPPLY_HIGH, supply.high());
        codes.set(TroubleCode.UNIT_RESTARTED, restart.restarted());
    }

    /** LH-TC-1. A key cycle begins where the key starts PRIME. */
    private void storeCodes(long nowNs, Inputs in) {
        boolean primes = pump.state() == PumpState.PRIME;
        if (primes && decision.state != PumpState.PRIME && in.keyOn) {
            codes.keyOn();
        }
        if (codes.anyNew()) {
            frame[FrozenValue.SHAFT_SPEED.ordinal()] = decision.shaftSpeedRadPerS;
            frame[FrozenValue.LINE_PRESSURE.ordinal()] = decision.linePressurePa;
            frame[FrozenValue.BUS_VOLTAGE.ordinal()] = in.busVolts;
            frame[FrozenValue.MAIN_CONTACT_VOLTAGE.ordinal()] = in.mainContactVolts;
            frame[FrozenValue.STANDBY_CONTACT_VOLTAGE.ordinal()] = in.standbyContactVolts;
            frame[FrozenValue.PUMP_CURRENT.ordinal()] = in.pumpCurrentAmps;
            frame[FrozenValue.OIL_TEMPERATURE.ordinal()] = situation.oilTemperatureC;
            frame[FrozenValue.TORQUE_REQUEST.ordinal()] = in.torqueRequestNm;
            frame[FrozenValue.PUMP_STATE.ordinal()] = pump.state().ordinal();
        }
        codes.store(nowNs, frame);
    }

    /** LH-RL-6: only here does the wiring turn a wish into a coil. The standby relay is wired normally open. */
    private void command() {
        decision.pumpWanted = feed.mainOn() || feed.standbyOn();
        decision.mainRelayCoil = feed.mainOn() != normallyClosed;
        decision.standbyRelayCoil = feed.standbyOn();
        decision.selfTest = feed.selfTest();
        decision.state = pump.state();
        decision.reason = pump.reason();
        decision.activeCodes = codes.active();
        decision.storedCodes = codes.stored();
        boolean untested = pump.state() != PumpState.OFF && feed.selfTest() == SelfTestState.NOT_DONE;
        decision.warningLamp = codes.wantsLamp() || untested;
        decision.buzzer = codes.wantsBuzzer();
        decision.lateTicks = lateTick.lateTicks();
        decision.rejectedEdges = shaftSpeed.rejectedEdges();
        decision.coolDowns = pump.coolDowns();
    }

    /** LH-PR-2, LH-PR-3, LH-PR-5, LH-RL-3: the strictest finding wins. */
    private void permit(Inputs in, double pressurePa, boolean atRest) {
        boolean primed = pump.state() != PumpState.OFF && pump.state() != PumpState.PRIME;
        boolean pumpFails = codes.withholdsAtStandstill() || codes.doubtsPump() && Double.isNaN(pressurePa);
        if (!primed || pressureLoss.engaging() || pumpFails && atRest) {
            decision.permission = DrivePermission.WITHHELD;
            decision.torqueLimitNm = 0;
        } else if (codes.reducesDrive() || pumpFails) {
            decision.permission = DrivePermission.REDUCED;
            decision.torqueLimitNm = limitNm(rangeFitted ? in.selectedRange : null, carryingPa(pressurePa));
        } else {
            decision.permission = DrivePermission.GRANTED;
            decision.torqueLimitNm = Double.POSITIVE_INFINITY;
        }
    }

    /** Where no sender tells, an internal pump that is fast enough holds the hold pressure unless it was seen to fail. */
    private double carryingPa(double pressurePa) {
        boolean seenToFail = pressureLoss.lostMoving() || pressureLoss.lostStanding();
        boolean bySpeed = Double.isNaN(pressurePa) && !situation.belowSwitchOn && !seenToFail;
        return bySpeed ? holdPa : pressurePa;
    }

    /** The trouble codes as a workshop reads them, and as a rig keeps them over a loss of power (LH-TC-1). */
    public StoredCodes storedCodes() {
        return codes;
    }

    /** Where the range is not known (null), or engages nothing by itself, every element counts. */
    private double limitNm(Range range, double pressurePa) {
        double forwardNm = torqueLimit.forwardNm(pressurePa);
        double reverseNm = torqueLimit.reverseNm(pressurePa);
        double weakestNm = Math.min(forwardNm, reverseNm);
        if (range == null) {
            return weakestNm;
        }
        return switch (range) {
            case DRIVE -> forwardNm;
            case REVERSE -> reverseNm;
            case PARK, NEUTRAL -> weakestNm;
        };
    }
}
