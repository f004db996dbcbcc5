package linehold.simulator.circuit;

import linehold.controller.Range;
import linehold.simulator.build.ApplyElementSpec;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.circuit.Circuit.Piston;
import linehold.simulator.electrics.RelayContact;
import linehold.simulator.numeric.ArrowheadStepper;

/**
 * The hydraulic circuit with its pump relay, moved through time. Conditions (shaft, bus, oil, range, element commands)
 * are set at the present instant and hold, or run on linearly, until set again; {@link #advance} moves the present on.
 *
 * <p>Steps are as long as the accuracy allows, often far longer than a controller period: what is read between the ends
 * of a step comes from its interpolant, and a condition that changes within a step cuts it there. Piston touch, empty
 * elements and the dry line are found exactly and end a step.
 */
public final class Plant {
    private static final double LONGEST_STEP_S = 1.0;
    /** A varying oil temperature is held within a step of this length. */
    private static final double LONGEST_STEP_WARMING_S = 0.05;
    /** First try after a switch, s, and after a bend in a condition. */
    private static final double AFTER_SWITCH_S = 1e-3;

    private static final double AFTER_BEND_S = 10e-3;
    /** A kink that the error estimate cannot get over is stepped over at this length. */
    private static final double SHORTEST_STEP_S = 1e-8;
    /** Crossings closer to the start than this are rounding. */
    private static final double SAME_INSTANT_S = 1e-11;

    private final Build build;
    private final Circuit circuit;
    private final ArrowheadStepper stepper;
    private final RelayContact contact;
    private final double[] scratch = new double[Circuit.STATES];
    private final double[] scratchFlows = new double[Circuit.FLOWS];

    private final double reliefClosesM3;

    private double nowS;
    private double stepEndS;
    private double endFraction;
    private int eventState = -1;
    private double eventValue;
    private double nextStepS = AFTER_SWITCH_S;
    private double oilAtS;
    private double oilC;
    private double oilSlope;

    private double airDrawnM3;
    private double exhaustedM3;
    private double pumpEnergyJ;
    private double contactClosedS;
    private double lowestPa;

    /**
     * @param withBounce whether the contact bounces after closing
     * @param contactClosedAtFirst state of the pump's contact at time 0
     */
    public Plant(Build build, double oilC, boolean withBounce, boolean contactClosedAtFirst) {
        this(build, oilC, withBounce, contactClosedAtFirst, Circuit.Tolerance.USUAL);
    }

    Plant(Build build, double oilC, boolean withBounce, boolean contactClosedAtFirst, Circuit.Tolerance tolerance) {
        this.build = build;
        this.oilC = oilC;
        circuit = new Circuit(build, oilC, tolerance);
        circuit.setBus(0, build.supply().openVolts(), 0);
        contact = new RelayContact(build.relay(), withBounce, contactClosedAtFirst);
        circuit.contactClosed = contactClosedAtFirst;
        reliefClosesM3 = circuit.storage.storedM3(
                Math.max(0, build.electricPump().reliefPa() - build.hose().crackPa()));
        stepper = new ArrowheadStepper(circuit, Circuit.STATES, Circuit.FLOWS);
    }

    /**
     * Sets the state at time 0; without it everything is empty and at rest.
     *
     * @param elementVolumesM3 oil in each apply element by {@link Element#ordinal}
     */
    public void start(double linePressurePa, double pumpRadPerS, double[] elementVolumesM3) {
        double[] state = new double[Circuit.STATES];
        state[Circuit.STORED] = circuit.storage.storedM3(linePressurePa);
        state[Circuit.PUMP_SPEED] = pumpRadPerS;
        for (int k = 0; k < Element.COUNT; k++) {
            double volume = elementVolumesM3[k];
            state[Circuit.FIRST_ELEMENT + k] = volume;
            circuit.piston[k] = volume <= 0
                    ? Piston.EMPTY
                    : volume < build.elements().get(k).strokeVolumeM3() ? Piston.STROKING : Piston.TOUCHED;
        }
        stepper.restart(0, state);
        lowestPa = linePressurePa;
    }

    // ---- conditions -------------------------------------------------------------------------------------------

    /** Shaft speed from now on, rad/s and rad/s². */
    public void setShaft(double radPerS, double slopeRadPerS2) {
        cut(AFTER_BEND_S);
        circuit.setShaft(nowS, radPerS, slopeRadPerS2);
    }

    /** Open-circuit bus voltage from now on, V and V/s. */
    public void setBus(double openVolts, double slopeVoltsPerS) {
        cut(AFTER_BEND_S);
        circuit.setBus(nowS, openVolts, slopeVoltsPerS);
    }

    /** Oil temperature from now on, °C and K/s. */
    public void setOil(double newOilC, double slopeKPerS) {
        cut(AFTER_BEND_S);
        oilAtS = nowS;
        oilC = newOilC;
        oilSlope = slopeKPerS;
        circuit.setOilC(newOilC);
    }

    public void setRange(Range range) {
        cut(AFTER_SWITCH_S);
        circuit.setRange(range);
    }

    /** Commands an apply element on (fill) or off (exhaust). */
    public void command(Element element, boolean on) {
        if (circuit.commanded[element.ordinal()] != on) {
            cut(AFTER_SWITCH_S);
            circuit.commanded[element.ordinal()] = on;
        }
    }

    /** From now on the relay's coil asks the pump's contact to close, or to open. */
    public void askContact(boolean toClose) {
        contact.ask(nowS, toClose);
    }

    /** A check valve that no longer closes. */
    public void setCheckValveFailedOpen(boolean failed) {
        cut(AFTER_SWITCH_S);
        circuit.outlet.setValveFailedOpen(failed);
    }

    /** A relay that no longer does what its coil says. */
    public void setRelayFailure(RelayContact.Failure failure) {
        cut(AFTER_SWITCH_S);
        contact.setFailure(failure);
        circuit.contactClosed = contact.isClosed();
    }

    /** A worn contact, Ω when closed. */
    public void setContactResistance(double ohm) {
        cut(AFTER_SWITCH_S);
        circuit.motor.setContactResistance(ohm);
    }

    // ---- time -------------------------------------------------------------------------------------------------

    /**
     * Moves the present to {@code toS}.
     *
     * @param horizonS time up to which the conditions are known to run on as set; at least {@code toS}
     */
    public void advance(double toS, double horizonS) {
        for (double contactS = contact.nextChangeS(); contactS <= toS; contactS = contact.nextChangeS()) {
            moveTo(contactS, contactS);
            cut(AFTER_SWITCH_S);
            contact.change(contactS);
            circuit.contactClosed = contact.isClosed();
        }
        moveTo(toS, Math.min(horizonS, contact.nextChangeS()));
    }

    private void moveTo(double toS, double limitS) {
        while (stepEndS < toS) {
            finishStep();
            takeStep(limitS);
        }
        nowS = toS;
    }

    /** Ends the step in flight at the present instant, because a condition changes here. */
    private void cut(double nextTryS) {
        if (stepEndS > nowS) {
            accept(fraction());
            stepper.setStartS(nowS);
            stepEndS = nowS;
        } else {
            finishStep();
        }
        stepper.invalidate();
        nextStepS = Math.min(nextStepS, nextTryS);
    }

    private double fraction() {
        double length = stepper.lengthS();
        return length == 0 ? 0 : Math.min(endFraction, (nowS - stepper.startS()) / length);
    }

    private void finishStep() {
        if (stepper.lengthS() == 0) {
            return;
        }
        accept(endFraction);
        if (eventState >= 0) {
            stepper.set(eventState, eventValue);
        }
        stepper.setStartS(stepEndS);
        lowestPa = Math.min(lowestPa, circuit.storage.pressurePa(stepper.startState(Circuit.STORED)));
    }

    /** Takes the step in flight as far as a fraction of it, with all that is counted. */
    private void accept(double fraction) {
        double takenS = fraction * stepper.lengthS();
        if (takenS <= 0) {
            return;
        }
        double middleRadPerS = stepper.state(Circuit.PUMP_SPEED, 0.5 * fraction);
        double middleS = stepper.startS() + 0.5 * takenS;
        double amps = circuit.pumpCurrentAmps(middleS, middleRadPerS);
        pumpEnergyJ += amps * circuit.motor.busVolts(circuit.busOpenVolts(middleS), amps) * takenS;
        contactClosedS += circuit.contactClosed ? takenS : 0;
        double drawn = circuit.lineDry ? -netIntegral(fraction) + netIntegral(0) : 0;
        for (int k = 0; k < Element.COUNT; k++) {
            int i = Circuit.FIRST_ELEMENT + k;
            double filled = stepper.state(i, fraction) - stepper.startState(i);
            if (!circuit.commanded[k]) {
                exhaustedM3 -= filled;
            } else if (circuit.lineDry) {
                drawn += filled;
            }
        }
        airDrawnM3 += drawn;
        stepper.accept(fraction);
    }

    private double netIntegral(double fraction) {
        return stepper.integral(Circuit.INTERNAL, fraction)
                + stepper.integral(Circuit.ELECTRIC, fraction)
                - stepper.integral(Circuit.LAMINAR_LEAK, fraction)
                - stepper.integral(Circuit.ORIFICE_LEAK, fraction)
                - stepper.integral(Circuit.REGULATOR, fraction);
    }

    private void takeStep(double limitS) {
        double startS = stepper.startS();
        if (oilSlope != 0) {
            circuit.setOilC(oilC + oilSlope * (startS - oilAtS));
        }
        settleModes();
        double longestS = Math.min(limitS - startS, oilSlope == 0 ? LONGEST_STEP_S : LONGEST_STEP_WARMING_S);
        double stepS = Math.min(nextStepS, longestS);
        if (longestS - stepS < 0.1 * stepS) {
            stepS = longestS;
        }
        double error = stepper.attempt(stepS);
        while (!(error <= 1) && stepS > SHORTEST_STEP_S) {
            double shrink = error < 1e6 ? Math.max(0.1, 0.8 / Math.cbrt(error)) : 0.1;
            stepS *= shrink;
            error = stepper.attempt(stepS);
        }
        nextStepS = stepS * Math.min(5, 0.8 / Math.cbrt(Math.max(error, 1e-6)));
        endFraction = 1;
        eventState = -1;
        findEvent(stepS);
        stepEndS = endFraction == 1 && stepS == longestS && longestS == limitS - startS
                ? limitS
                : startS + endFraction * stepS;
    }

    // ---- modes and their instants -----------------------------------------------------------------------------

    private void settleModes() {
        double linePa = circuit.storage.pressurePa(stepper.startState(Circuit.STORED));
        for (int k = 0; k < Element.COUNT; k++) {
            Piston before = circuit.piston[k];
            if (before == Piston.EMPTY && !circuit.commanded[k]) {
                continue;
            }
            Piston after = settled(k, before, linePa);
            if (after != before) {
                circuit.piston[k] = after;
                stepper.invalidate();
            }
            if (after == Piston.EMPTY && stepper.startState(Circuit.FIRST_ELEMENT + k) != 0) {
                stepper.set(Circuit.FIRST_ELEMENT + k, 0);
            }
        }
        settleDry();
        if (stepper.startState(Circuit.PUMP_SPEED) < 0) {
            stepper.set(Circuit.PUMP_SPEED, 0);
        }
    }

    private Piston settled(int k, Piston before, double linePa) {
        ApplyElementSpec spec = build.elements().get(k);
        double volume = stepper.startState(Circuit.FIRST_ELEMENT + k);
        boolean commanded = circuit.commanded[k];
        if (volume <= 0) {
            return commanded && linePa > spec.returnPressurePa() ? Piston.STROKING : Piston.EMPTY;
        }
        if (volume < spec.strokeVolumeM3()) {
            return Piston.STROKING;
        }
        if (volume > spec.strokeVolumeM3()) {
            return Piston.TOUCHED;
        }
        // Exactly at touch: the flow decides, and with no flow the piston stays where it came from.
        double drivePa = commanded ? linePa - spec.touchPressurePa() : -spec.touchPressurePa();
        return drivePa > 0 ? Piston.TOUCHED : drivePa < 0 ? Piston.STROKING : before;
    }

    private void settleDry() {
        if (stepper.startState(Circuit.STORED) > 0) {
            if (circuit.lineDry) {
                circuit.lineDry = false;
                stepper.invalidate();
            }
            return;
        }
        for (int i = 0; i < Circuit.STATES; i++) {
            scratch[i] = stepper.startState(i);
        }
        boolean dry = circuit.netFlow(stepper.startS(), scratch, scratchFlows) <= 0;
        if (dry != circuit.lineDry) {
            circuit.lineDry = dry;
            stepper.invalidate();
        }
        if (scratch[Circuit.STORED] != 0) {
            stepper.set(Circuit.STORED, 0);
        }
    }

    private void findEvent(double stepS) {
        if (circuit.lineDry) {
            findEndOfDry(stepS);
        } else {
            consider(stepS, Circuit.STORED, 0);
            // Bends in the slope that a long step would smear: the regulator opens, the relieved pump's valve closes.
            consider(stepS, Circuit.STORED, circuit.regulatorOpensM3);
            consider(stepS, Circuit.STORED, reliefClosesM3);
        }
        for (int k = 0; k < Element.COUNT; k++) {
            int i = Circuit.FIRST_ELEMENT + k;
            ApplyElementSpec spec = build.elements().get(k);
            switch (circuit.piston[k]) {
                case EMPTY -> {
                    if (circuit.commanded[k]) {
                        consider(stepS, Circuit.STORED, circuit.storage.storedM3(spec.returnPressurePa()));
                    }
                }
                case STROKING -> {
                    consider(stepS, i, 0);
                    consider(stepS, i, spec.strokeVolumeM3());
                }
                case TOUCHED -> consider(stepS, i, spec.strokeVolumeM3());
            }
        }
    }

    private void consider(double stepS, int state, double level) {
        double crossing = stepper.crossing(state, level);
        if (crossing < endFraction && crossing * stepS > SAME_INSTANT_S) {
            endFraction = crossing;
            eventState = state;
            eventValue = level;
        }
    }

    /** The dry line fills again as soon as the net flow is positive: the instant is found by bisection. */
    private void findEndOfDry(double stepS) {
        if (netAt(stepS, 1) <= 0) {
            return;
        }
        double low = 0;
        double high = 1;
        while ((high - low) * stepS > 1e-9) {
            double middle = 0.5 * (low + high);
            if (netAt(stepS, middle) > 0) {
                high = middle;
            } else {
                low = middle;
            }
        }
        endFraction = high;
    }

    private double netAt(double stepS, double fraction) {
        for (int i = 0; i < Circuit.STATES; i++) {
            scratch[i] = stepper.state(i, fraction);
        }
        return circuit.netFlow(stepper.startS() + fraction * stepS, scratch, scratchFlows);
    }

    // ---- what can be read at the present instant --------------------------------------------------------------

    public double nowS() {
        return nowS;
    }

    /** Line pressure, Pa gauge, never negative. */
    public double linePressurePa() {
        return circuit.storage.pressurePa(stepper.state(Circuit.STORED, fraction()));
    }

    /** Lowest line pressure at any end of a step since the last call, and now; Pa. */
    public double takeLowestPressurePa() {
        double now = linePressurePa();
        double lowest = Math.min(lowestPa, now);
        lowestPa = now;
        return lowest;
    }

    public double shaftRadPerS() {
        return circuit.shaftRadPerS(nowS);
    }

    public double pumpRadPerS() {
        return Math.max(0, stepper.state(Circuit.PUMP_SPEED, fraction()));
    }

    public double pumpCurrentAmps() {
        return circuit.pumpCurrentAmps(nowS, pumpRadPerS());
    }

    /** Voltage of the bus under the pump's load, V. */
    public double busVolts() {
        return circuit.motor.busVolts(circuit.busOpenVolts(nowS), pumpCurrentAmps());
    }

    /** Voltage behind the contact: the bus while it is closed, the coasting motor's own while it is open. */
    public double voltsBehindContact() {
        double amps = pumpCurrentAmps();
        return circuit.contactClosed
                ? circuit.motor.busVolts(circuit.busOpenVolts(nowS), amps)
                        - amps * build.relay().contactResistanceOhm()
                : circuit.motor.backEmfVolts(pumpRadPerS());
    }

    public boolean contactClosed() {
        return circuit.contactClosed;
    }

    public long relayMoves() {
        return contact.moves();
    }

    public double elementVolumeM3(Element element) {
        return Math.max(0, stepper.state(Circuit.FIRST_ELEMENT + element.ordinal(), fraction()));
    }

    /** Piston pressure, Pa. */
    public double elementPressurePa(Element element) {
        return circuit.pistonPa(element.ordinal(), elementVolumeM3(element));
    }

    public boolean touched(Element element) {
        return circuit.piston[element.ordinal()] == Piston.TOUCHED;
    }

    /** Flow of the electric pump through the check valve into the line, m³/s. */
    public double electricFlowM3PerS() {
        circuit.outlet.solve(pumpRadPerS(), linePressurePa());
        return circuit.outlet.flowM3PerS;
    }

    /** Flow of the internal pump into the line, m³/s, signed. */
    public double internalFlowM3PerS() {
        return circuit.internalFlow(nowS, linePressurePa());
    }

    public boolean oilIsExtrapolated() {
        return circuit.oil.isExtrapolated();
    }

    public double airDrawnM3() {
        return balance().airDrawnM3();
    }

    public double pumpEnergyJ() {
        return pumpEnergyJ;
    }

    /** Time with the pump's contact closed up to the last end of a step, s. */
    public double contactClosedS() {
        return contactClosedS;
    }

    /** Where all oil has come from and gone to, up to now. Cuts the step in flight. */
    public VolumeBalance balance() {
        cut(nextStepS);
        double stored = stepper.startState(Circuit.STORED);
        for (int k = 0; k < Element.COUNT; k++) {
            stored += stepper.startState(Circuit.FIRST_ELEMENT + k);
        }
        return new VolumeBalance(
                stepper.integral(Circuit.INTERNAL, 0),
                stepper.integral(Circuit.ELECTRIC, 0),
                airDrawnM3,
                stepper.integral(Circuit.LAMINAR_LEAK, 0) + stepper.integral(Circuit.ORIFICE_LEAK, 0),
                stepper.integral(Circuit.REGULATOR, 0),
                exhaustedM3,
                stored);
    }
}
