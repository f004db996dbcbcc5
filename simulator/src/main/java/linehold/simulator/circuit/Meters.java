package linehold.simulator.circuit;

import linehold.simulator.build.Element;
import linehold.simulator.numeric.ArrowheadStepper;

/**
 * What a run counts as it goes: air drawn, oil exhausted, pump energy, contact time, lowest pressure. Each can be read
 * at any fraction of the step in flight.
 */
final class Meters {
    private final Circuit circuit;
    private final ArrowheadStepper stepper;

    private double airM3;
    private double exhaustedM3;
    private double energyJ;
    private double closedS;
    private double lowestM3;
    /** Fraction of the step in flight up to which {@link #lowestM3} has seen it. */
    private double seenFraction;

    Meters(Circuit circuit, ArrowheadStepper stepper) {
        this.circuit = circuit;
        this.stepper = stepper;
    }

    /** Takes what the step in flight adds up to a fraction of it, just before that becomes its end. */
    void take(double fraction) {
        double air = airM3(fraction);
        exhaustedM3 = exhaustedM3(fraction);
        energyJ = energyJ(fraction);
        closedS = closedS(fraction);
        airM3 = air;
        lookAt(fraction);
        seenFraction = 0;
    }

    void addAir(double m3) {
        airM3 += m3;
    }

    void addExhausted(double m3) {
        exhaustedM3 += m3;
    }

    /** A dry line draws as much air as the flows take more than they bring. */
    double airM3(double fraction) {
        if (!circuit.lineDry) {
            return airM3;
        }
        double missing = net(0) - net(fraction);
        for (int k = 0; k < Element.COUNT; k++) {
            missing += circuit.elements[k].commanded ? filled(k, fraction) : 0;
        }
        return airM3 + missing;
    }

    double exhaustedM3(double fraction) {
        double sum = exhaustedM3;
        for (int k = 0; k < Element.COUNT; k++) {
            sum -= circuit.elements[k].commanded ? 0 : filled(k, fraction);
        }
        return sum + sealed(fraction);
    }

    /** Oil lost past the seals of commanded elements: what the line has fed them beyond what they hold. */
    private double sealed(double fraction) {
        boolean leaks = false;
        double held = stepper.state(Circuit.STORED, fraction) - stepper.startState(Circuit.STORED);
        for (int k = 0; k < Element.COUNT; k++) {
            if (circuit.elements[k].commanded) {
                leaks |= circuit.elements[k].sealLeakM2 > 0;
                held += filled(k, fraction);
            }
        }
        // A dry line hides it among the air.
        return leaks && !circuit.lineDry ? net(fraction) - net(0) - held : 0;
    }

    private double filled(int k, double fraction) {
        int i = Circuit.FIRST_ELEMENT + k;
        return stepper.state(i, fraction) - stepper.startState(i);
    }

    private double net(double fraction) {
        return stepper.integral(Circuit.INTERNAL, fraction)
                + stepper.integral(Circuit.ELECTRIC, fraction)
                - stepper.integral(Circuit.LAMINAR_LEAK, fraction)
                - stepper.integral(Circuit.ORIFICE_LEAK, fraction)
                - stepper.integral(Circuit.REGULATOR, fraction);
    }

    /** Energy that the pump takes from the bus: Simpson's rule over the step. */
    double energyJ(double fraction) {
        if (!circuit.contactClosed) {
            return energyJ;
        }
        double lengthS = fraction * stepper.lengthS();
        return energyJ + lengthS / 6 * (watts(0) + 4 * watts(0.5 * fraction) + watts(fraction));
    }

    private double watts(double fraction) {
        double timeS = stepper.startS() + fraction * stepper.lengthS();
        double amps = circuit.pumpCurrentAmps(timeS, stepper.state(Circuit.PUMP_SPEED, fraction));
        return amps * circuit.motor.busVolts(circuit.busOpenVolts(timeS), amps);
    }

    double closedS(double fraction) {
        return circuit.contactClosed ? closedS + fraction * stepper.lengthS() : closedS;
    }

    void restartLowest(double storedM3) {
        lowestM3 = storedM3;
    }

    /** Least stored volume since the last call, m³. */
    double takeLowestM3(double fraction) {
        lookAt(fraction);
        double lowest = lowestM3;
        lowestM3 = stepper.state(Circuit.STORED, fraction);
        return lowest;
    }

    private void lookAt(double fraction) {
        lowestM3 = Math.min(lowestM3, stepper.least(Circuit.STORED, seenFraction, fraction));
        seenFraction = fraction;
    }
}
