package linehold.simulator.circuit;

import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.circuit.ApplyElement.Piston;
import linehold.simulator.numeric.ArrowheadStepper;

/**
 * Where the equations of the circuit change their form: the line runs dry or fills again, a piston starts, touches,
 * leaves or comes home, the regulator opens. It sets the modes at the start of a step and finds the first such instant
 * within a step, which then ends there.
 */
final class Kinks {
    private static final int NONE = -1;
    /** How closely the end of a dry line is found, s. */
    private static final double DRY_END_S = 1e-9;

    private final Circuit circuit;
    private final ArrowheadStepper stepper;
    private final Meters meters;
    private final double reliefClosesPa;
    private double reliefClosesM3;
    private final double[] state = new double[Circuit.STATES];
    private final double[] rates = new double[Circuit.STATES];
    private final double[] flows = new double[Circuit.FLOWS];

    private double endFraction;
    private int endState;
    private double endValue;

    Kinks(Build build, Circuit circuit, ArrowheadStepper stepper, Meters meters) {
        this.circuit = circuit;
        this.stepper = stepper;
        this.meters = meters;
        reliefClosesPa =
                Math.max(0, build.electricPump().reliefPa() - build.hose().crackPa());
        lineChanged();
    }

    /** The line stores another volume at the same pressure from now on. */
    void lineChanged() {
        reliefClosesM3 = circuit.storage.storedM3(reliefClosesPa);
    }

    // ---- modes at the start of a step -------------------------------------------------------------------------

    /** Sets the modes that state and conditions ask for at the start of a step. */
    void settle() {
        for (int k = 0; k < Element.COUNT; k++) {
            settleElement(k);
        }
        settleDry();
        if (stepper.startState(Circuit.PUMP_SPEED) < 0) {
            stepper.set(Circuit.PUMP_SPEED, 0);
        }
    }

    private void settleElement(int k) {
        ApplyElement element = circuit.elements[k];
        int i = Circuit.FIRST_ELEMENT + k;
        double volume = stepper.startState(i);
        if (volume < 0) {
            // It gave more than it had, by no more than the error of a step: whoever got that gives it back.
            if (element.commanded) {
                stepper.set(Circuit.STORED, stepper.startState(Circuit.STORED) + volume);
            } else {
                meters.addExhausted(volume);
            }
            stepper.set(i, 0);
        }
        setPiston(element, settled(element, volume));
    }

    private Piston settled(ApplyElement element, double volume) {
        if (volume <= 0) {
            boolean fills = element.commanded && stepper.startState(Circuit.STORED) > element.fillsAboveM3;
            return fills ? Piston.STROKING : Piston.EMPTY;
        }
        if (volume != element.strokeM3) {
            return volume < element.strokeM3 ? Piston.STROKING : Piston.TOUCHED;
        }
        // Exactly at touch the flow decides.
        double linePa = circuit.storage.pressurePa(stepper.startState(Circuit.STORED));
        return element.commanded && linePa >= element.touchPa ? Piston.TOUCHED : Piston.STROKING;
    }

    private void settleDry() {
        double stored = stepper.startState(Circuit.STORED);
        if (stored < 0) {
            meters.addAir(-stored);
            stepper.set(Circuit.STORED, 0);
        }
        setDry(stored <= 0 && netAtStart() <= 0);
    }

    private double netAtStart() {
        for (int i = 0; i < Circuit.STATES; i++) {
            state[i] = stepper.startState(i);
        }
        return circuit.rates(stepper.startS(), state, rates, flows);
    }

    /**
     * Whether a step just tried moves a state off a limit to the side where another mode holds, though the rate at the
     * start said otherwise (it may change its sign within the step). The mode is then changed, for another try.
     */
    boolean change() {
        boolean changed = false;
        for (int k = 0; k < Element.COUNT; k++) {
            ApplyElement element = circuit.elements[k];
            int i = Circuit.FIRST_ELEMENT + k;
            Piston piston = element.piston;
            if (piston == Piston.EMPTY) {
                if (element.commanded && leaves(Circuit.STORED, element.fillsAboveM3) > 0) {
                    piston = Piston.STROKING;
                }
            } else if (leaves(i, 0) < 0) {
                piston = Piston.EMPTY;
            } else {
                double side = leaves(i, element.strokeM3);
                piston = side > 0 ? Piston.TOUCHED : side < 0 ? Piston.STROKING : piston;
            }
            changed |= setPiston(element, piston);
        }
        if (!circuit.lineDry && leaves(Circuit.STORED, 0) < 0) {
            changed |= setDry(true);
        }
        return changed;
    }

    /** To which side, 1 or −1, the step leaves a limit that the state lies on at its start; 0 if it does neither. */
    private double leaves(int i, double level) {
        boolean goes = stepper.startState(i) == level && stepper.crossing(i, level) > 1;
        return goes ? Math.signum(stepper.state(i, 1) - level) : 0;
    }

    private boolean setPiston(ApplyElement element, Piston piston) {
        boolean changes = element.piston != piston;
        if (changes) {
            element.piston = piston;
            stepper.invalidate();
        }
        return changes;
    }

    private boolean setDry(boolean dry) {
        boolean changes = circuit.lineDry != dry;
        if (changes) {
            circuit.lineDry = dry;
            stepper.invalidate();
        }
        return changes;
    }

    // ---- the first kink within a step -------------------------------------------------------------------------

    /** Fraction of the step just tried at which the first kink lies; 1 if there is none. */
    double find() {
        endFraction = 1;
        endState = NONE;
        if (circuit.lineDry) {
            findEndOfDry();
        } else {
            consider(Circuit.STORED, 0);
            // Bends in the slope that a long step would smear.
            considerBend(circuit.regulatorOpensM3);
            considerBend(circuit.storage.gasFromM3);
            considerBend(reliefClosesM3);
        }
        for (int k = 0; k < Element.COUNT; k++) {
            int i = Circuit.FIRST_ELEMENT + k;
            ApplyElement element = circuit.elements[k];
            switch (element.piston) {
                case EMPTY -> {
                    if (element.commanded) {
                        consider(Circuit.STORED, element.fillsAboveM3);
                    }
                }
                case STROKING -> {
                    consider(i, 0);
                    consider(i, element.strokeM3);
                }
                case TOUCHED -> consider(i, element.strokeM3);
            }
        }
        return endFraction;
    }

    /** A line that comes back to a bend within one step may cross it: there is no mode to be wrong. */
    private void considerBend(double storedM3) {
        if (stepper.startState(Circuit.STORED) != storedM3) {
            consider(Circuit.STORED, storedM3);
        }
    }

    private void consider(int i, double level) {
        double crossing = stepper.crossing(i, level);
        if (crossing < endFraction) {
            endFraction = crossing;
            endState = i;
            endValue = level;
        }
    }

    /** The dry line fills again as soon as the net flow is positive: the instant is found by bisection. */
    private void findEndOfDry() {
        if (netAt(1) <= 0) {
            return;
        }
        double low = 0;
        double high = 1;
        while ((high - low) * stepper.lengthS() > DRY_END_S) {
            double middle = 0.5 * (low + high);
            if (netAt(middle) > 0) {
                high = middle;
            } else {
                low = middle;
            }
        }
        endFraction = high;
    }

    private double netAt(double fraction) {
        for (int i = 0; i < Circuit.STATES; i++) {
            state[i] = stepper.state(i, fraction);
        }
        return circuit.rates(stepper.startS() + fraction * stepper.lengthS(), state, rates, flows);
    }

    /** Once the step is taken to {@link #find} exactly: frees the state at the kink from rounding. */
    void land() {
        if (endState != NONE) {
            stepper.set(endState, endValue);
        }
    }
}
