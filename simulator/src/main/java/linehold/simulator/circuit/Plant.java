package linehold.simulator.circuit;

import linehold.controller.Range;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.build.RelaySpec;
import linehold.simulator.circuit.ApplyElement.Piston;
import linehold.simulator.electrics.PumpFeed;
import linehold.simulator.electrics.Relay;
import linehold.simulator.electrics.RelayContact;
import linehold.simulator.numeric.ArrowheadStepper;

/**
 * The hydraulic circuit with its pump relay, moved through time. Conditions (shaft, bus, oil, range, element commands)
 * are set at the present instant and hold, or run on linearly, until set again; {@link #advance} moves the present on.
 *
 * <p>Steps are as long as the accuracy allows, often far longer than a controller period: what is read between the ends
 * of a step comes from its interpolant, and a condition that changes within a step cuts it there. Reading never changes
 * what comes after. It is the one door to the circuit, hence its length: conditions in, time on, readings out.
 * docs/model.md states the physics, docs/numerics.md the method and its measured errors.
 */
public final class Plant {
    private static final double LONGEST_STEP_S = 1.0;
    /** A varying oil temperature is held within a step that covers this much of it, K. */
    private static final double LARGEST_WARMING_K = 0.05;
    /** First try after a switch, s, and after a bend in a condition. */
    private static final double AFTER_SWITCH_S = 1e-3;

    private static final double AFTER_BEND_S = 10e-3;
    /** A kink that the error estimate cannot get over is stepped over at this length. */
    private static final double SHORTEST_STEP_S = 1e-8;

    private static final int MOST_SHORT_STEPS = 10_000;

    private final Build build;
    private final Circuit circuit;
    private final ArrowheadStepper stepper;
    private final PumpFeed feed;
    private final Meters meters;
    private final Kinks kinks;

    private double nowS;
    /** The present as a fraction of the step in flight. */
    private double fraction;

    private double stepEndS;
    private double endFraction;
    private double nextStepS = AFTER_SWITCH_S;
    private Range range = Range.PARK;
    private double oilAtS;
    private double oilC;
    private double oilSlope;
    private long attempts;
    private int shortSteps;

    /**
     * Everything empty and at rest, range P.
     *
     * @param withBounce whether the contact bounces after closing
     * @param contactClosedAtFirst state of the pump's contact at time 0
     */
    public Plant(Build build, double oilC, boolean withBounce, boolean contactClosedAtFirst) {
        this(build, build.relay(), oilC, withBounce, contactClosedAtFirst);
    }

    /** The same with other relay delays than the build's: those of the contact the pump is really wired through. */
    public Plant(Build build, RelaySpec relay, double oilC, boolean withBounce, boolean contactClosedAtFirst) {
        this.build = build;
        this.oilC = oilC;
        circuit = new Circuit(build, oilC, Circuit.Tolerance.USUAL);
        circuit.setBus(0, build.supply().openVolts(), 0);
        feed = new PumpFeed(relay, build.relay(), withBounce, contactClosedAtFirst);
        circuit.contactClosed = contactClosedAtFirst;
        stepper = new ArrowheadStepper(circuit, Circuit.STATES, Circuit.FLOWS);
        meters = new Meters(circuit, stepper);
        kinks = new Kinks(build, circuit, stepper, meters);
    }

    /**
     * Sets the state at time 0, before anything else.
     *
     * @param elementVolumesM3 oil in each apply element by {@link Element#ordinal}
     */
    public void start(double linePressurePa, double pumpRadPerS, double[] elementVolumesM3) {
        double[] state = new double[Circuit.STATES];
        state[Circuit.STORED] = circuit.storage.storedM3(linePressurePa);
        state[Circuit.PUMP_SPEED] = pumpRadPerS;
        System.arraycopy(elementVolumesM3, 0, state, Circuit.FIRST_ELEMENT, Element.COUNT);
        stepper.restart(0, state);
        kinks.settle();
        meters.restartLowest(state[Circuit.STORED]);
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

    public void setRange(Range newRange) {
        if (newRange != range) {
            cut(AFTER_SWITCH_S);
            range = newRange;
            circuit.setRange(newRange);
        }
    }

    /** Commands an apply element on (fill) or off (exhaust). */
    public void command(Element element, boolean on) {
        if (circuit.elements[element.ordinal()].commanded != on) {
            cut(AFTER_SWITCH_S);
            circuit.elements[element.ordinal()].commanded = on;
        }
    }

    /** From now on a relay's coil asks its contact to close, or to open. */
    public void ask(Relay relay, boolean toClose) {
        feed.contact(relay).ask(nowS, toClose);
    }

    /** A relay that no longer does what its coil says. */
    public void setRelayFailure(Relay relay, RelayContact.Failure failure) {
        feed.contact(relay).setFailure(failure);
        feedChanged();
    }

    /** A worn contact, Ω when closed. */
    public void setContactResistance(Relay relay, double ohm) {
        feed.setResistance(relay, ohm);
        feedChanged();
    }

    /** A contact that bounces for this long after closing, s. */
    public void setContactBounce(Relay relay, double bounceS) {
        feed.contact(relay).setBounceS(bounceS);
    }

    /** A contact as new. */
    public void healContact(Relay relay) {
        feed.setResistance(relay, build.relay().contactResistanceOhm());
        feed.contact(relay).setBounceS(build.relay().bounceS());
        feedChanged();
    }

    private void feedChanged() {
        cut(AFTER_SWITCH_S);
        circuit.contactClosed = feed.isClosed();
        circuit.motor.setContactResistance(feed.resistanceOhm());
    }

    /** What is worn or broken in the circuit; {@link #conditionChanged} must follow a change. */
    public Condition condition() {
        return circuit.condition;
    }

    /** Takes over a changed {@link #condition}: pressures stay as they are, what the line stores at them may not. */
    public void conditionChanged() {
        cut(AFTER_SWITCH_S);
        double before = stepper.startState(Circuit.STORED);
        double linePa = circuit.storage.pressurePa(before);
        circuit.setCondition();
        double after = circuit.storage.storedM3(linePa);
        if (after != before) {
            stepper.set(Circuit.STORED, after);
            meters.addAir(after - before);
            meters.restartLowest(after);
        }
        kinks.lineChanged();
    }

    // ---- time -------------------------------------------------------------------------------------------------

    /**
     * Moves the present to {@code toS}.
     *
     * @param toS not before the present, s
     * @param horizonS time up to which the conditions are known to run on as set; at least {@code toS}
     */
    public void advance(double toS, double horizonS) {
        if (!(toS >= nowS && horizonS >= toS)) {
            throw new IllegalArgumentException("from " + nowS + " s to " + toS + " s, known up to " + horizonS + " s");
        }
        for (double contactS = feed.nextChangeS(); contactS <= toS; contactS = feed.nextChangeS()) {
            moveTo(contactS, contactS);
            feed.change(contactS);
            feedChanged();
        }
        moveTo(toS, Math.min(horizonS, feed.nextChangeS()));
    }

    private void moveTo(double toS, double limitS) {
        while (stepEndS < toS) {
            finishStep();
            takeStep(limitS);
        }
        nowS = toS;
        double lengthS = stepper.lengthS();
        fraction = lengthS == 0 ? 0 : Math.min(endFraction, (toS - stepper.startS()) / lengthS);
    }

    /** Ends the step in flight at the present instant, because a condition changes here. */
    private void cut(double nextTryS) {
        if (stepEndS > nowS) {
            meters.take(fraction);
            stepper.accept(fraction);
            stepper.setStartS(nowS);
            stepEndS = nowS;
        } else {
            finishStep();
        }
        fraction = 0;
        stepper.invalidate();
        nextStepS = Math.min(nextStepS, nextTryS);
    }

    private void finishStep() {
        if (stepper.lengthS() > 0) {
            meters.take(endFraction);
            stepper.accept(endFraction);
            kinks.land();
            stepper.setStartS(stepEndS);
        }
    }

    private void takeStep(double limitS) {
        double startS = stepper.startS();
        double longestS = Math.min(limitS - startS, LONGEST_STEP_S);
        if (oilSlope != 0) {
            longestS = Math.min(longestS, LARGEST_WARMING_K / Math.abs(oilSlope));
        }
        double wishedS = nextStepS;
        double stepS = Math.min(wishedS, longestS);
        if (longestS - stepS < 0.1 * stepS) {
            stepS = longestS;
        }
        if (oilSlope != 0) {
            circuit.setOilC(oilC + oilSlope * (startS + 0.5 * stepS - oilAtS));
            stepper.invalidate();
        }
        kinks.settle();
        double goodS = attempt(stepS);
        if (kinks.change()) {
            goodS = attempt(goodS);
        }
        if (goodS == longestS) {
            // A step that was only short because it had to be says little against the length wished for.
            nextStepS = Math.max(nextStepS, wishedS);
        }
        endFraction = kinks.find();
        boolean toLimit = endFraction == 1 && goodS == limitS - startS;
        stepEndS = toLimit ? limitS : startS + endFraction * goodS;
        standStill(stepEndS - startS);
    }

    /** A run that no longer gets on must end with a word, not hang. */
    private void standStill(double takenS) {
        shortSteps = takenS < SHORTEST_STEP_S ? shortSteps + 1 : 0;
        if (shortSteps > MOST_SHORT_STEPS) {
            throw new IllegalStateException("the circuit does not get on at " + stepEndS + " s");
        }
    }

    /** Tries a step, shorter ones if need be. Returns the length of the good one and sets the next to try, s. */
    private double attempt(double firstS) {
        double stepS = firstS;
        double error = stepper.attempt(stepS);
        attempts++;
        while (!(error <= 1) && stepS > SHORTEST_STEP_S) {
            stepS *= error < 1e6 ? Math.max(0.1, 0.8 / StrictMath.cbrt(error)) : 0.1;
            error = stepper.attempt(stepS);
            attempts++;
        }
        if (Double.isNaN(error)) {
            throw new IllegalStateException("the circuit has no solution after " + stepper.startS() + " s");
        }
        nextStepS = stepS * Math.min(5, 0.8 / StrictMath.cbrt(Math.max(error, 1e-6)));
        return stepS;
    }

    /** Steps tried so far: what a run costs, independent of the machine. */
    long attempts() {
        return attempts;
    }

    // ---- what can be read at the present instant --------------------------------------------------------------

    public double nowS() {
        return nowS;
    }

    /** Line pressure, Pa gauge, never negative. */
    public double linePressurePa() {
        return circuit.storage.pressurePa(stepper.state(Circuit.STORED, fraction));
    }

    /** Lowest line pressure since the last call, Pa. */
    public double takeLowestPressurePa() {
        return circuit.storage.pressurePa(meters.takeLowestM3(fraction));
    }

    public double shaftRadPerS() {
        return circuit.shaftRadPerS(nowS);
    }

    public double pumpRadPerS() {
        return Math.max(0, stepper.state(Circuit.PUMP_SPEED, fraction));
    }

    public double pumpCurrentAmps() {
        return circuit.pumpCurrentAmps(nowS, pumpRadPerS());
    }

    /** Voltage of the bus under the pump's load, V. */
    public double busVolts() {
        return circuit.motor.busVolts(circuit.busOpenVolts(nowS), pumpCurrentAmps());
    }

    /** Voltage on the pump's wire: the bus while a contact and the fuse feed it, else the turning motor's own. */
    public double voltsBehindContacts() {
        if (circuit.condition.motorOpen && !circuit.contactClosed) {
            return 0;
        }
        return circuit.contactClosed && !circuit.condition.fuseBlown
                ? circuit.motor.voltsBehindContact(circuit.busOpenVolts(nowS), pumpCurrentAmps())
                : circuit.motor.backEmfVolts(pumpRadPerS());
    }

    public boolean contactClosed() {
        return circuit.contactClosed;
    }

    public long relayMoves() {
        return feed.moves();
    }

    public double elementVolumeM3(Element element) {
        return Math.max(0, stepper.state(Circuit.FIRST_ELEMENT + element.ordinal(), fraction));
    }

    /** Piston pressure, Pa. */
    public double elementPressurePa(Element element) {
        return circuit.elements[element.ordinal()].pistonPa(elementVolumeM3(element));
    }

    public boolean touched(Element element) {
        return circuit.elements[element.ordinal()].piston == Piston.TOUCHED;
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
        return meters.airM3(fraction);
    }

    /** Energy that the pump has taken from the bus, J. */
    public double pumpEnergyJ() {
        return meters.energyJ(fraction);
    }

    /** Time with the pump's contact closed, s. */
    public double contactClosedS() {
        return meters.closedS(fraction);
    }

    /** Where all oil has come from and gone to, up to now. */
    public VolumeBalance balance() {
        double stored = stepper.state(Circuit.STORED, fraction);
        for (int k = 0; k < Element.COUNT; k++) {
            stored += stepper.state(Circuit.FIRST_ELEMENT + k, fraction);
        }
        return new VolumeBalance(
                stepper.integral(Circuit.INTERNAL, fraction),
                stepper.integral(Circuit.ELECTRIC, fraction),
                meters.airM3(fraction),
                stepper.integral(Circuit.LAMINAR_LEAK, fraction) + stepper.integral(Circuit.ORIFICE_LEAK, fraction),
                stepper.integral(Circuit.REGULATOR, fraction),
                meters.exhaustedM3(fraction),
                stored);
    }
}
