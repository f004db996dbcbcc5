package linehold.simulator.window;

import linehold.controller.Range;
import linehold.controller.calibration.Key;
import linehold.simulator.build.ApplyElementSpec;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.circuit.Plant;

/** Where the circuit settles with one pump alone and one apply element engaged, by running it until it has settled. */
final class SteadyState {
    /** A filled circuit settles in tenths of a second; this is far beyond. */
    private static final double SETTLE_S = 5;

    private static final double ACCURACY_RAD_PER_S = 1e-3;

    private final Build build;
    private final double oilC;

    SteadyState(Build build, double oilC) {
        this.build = build;
        this.oilC = oilC;
    }

    /** Pressure that the electric pump alone holds at standstill in first, Pa. */
    double standstillPa(double busVolts) {
        Plant plant = plant(Element.LOW_BAND, Range.DRIVE, build.limits().holdPressurePa(), true);
        plant.setBus(busVolts, 0);
        plant.advance(SETTLE_S, Double.POSITIVE_INFINITY);
        return plant.linePressurePa();
    }

    /**
     * Lowest shaft speed at which the internal pump alone keeps a pressure, by bisection on whether the line rises from
     * it or falls; the settled pressure grows with the speed.
     *
     * @return rad/s; NaN where the highest shaft speed does not make it
     */
    double carryRadPerS(Element element, Range range, double pressurePa) {
        double high = build.calibration().get(Key.HIGHEST_SHAFT_SPEED);
        if (!keeps(element, range, pressurePa, high)) {
            return Double.NaN;
        }
        double low = 0;
        while (high - low > ACCURACY_RAD_PER_S) {
            double middle = 0.5 * (low + high);
            if (keeps(element, range, pressurePa, middle)) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return high;
    }

    /**
     * Highest speed at which the shaft may turn backward in first, as in a car that rolls back, before the electric pump
     * alone no longer keeps a pressure: the internal pump then draws oil out of the line.
     *
     * @return rad/s, positive; NaN where the electric pump does not keep it even at standstill
     */
    double rollBackRadPerS(double pressurePa) {
        double busVolts = build.supply().openVolts();
        if (!keepsBackward(pressurePa, 0, busVolts)) {
            return Double.NaN;
        }
        double low = 0;
        double high = build.calibration().get(Key.HIGHEST_SHAFT_SPEED);
        while (high - low > ACCURACY_RAD_PER_S) {
            double middle = 0.5 * (low + high);
            if (keepsBackward(pressurePa, middle, busVolts)) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    private boolean keepsBackward(double pressurePa, double backwardRadPerS, double busVolts) {
        Plant plant = plant(Element.LOW_BAND, Range.DRIVE, pressurePa, true);
        plant.setBus(busVolts, 0);
        // Standing until the pump has run up.
        plant.advance(SETTLE_S, Double.POSITIVE_INFINITY);
        plant.setShaft(-backwardRadPerS, 0);
        plant.advance(2 * SETTLE_S, Double.POSITIVE_INFINITY);
        return plant.linePressurePa() >= pressurePa;
    }

    private boolean keeps(Element element, Range range, double pressurePa, double shaftRadPerS) {
        Plant plant = plant(element, range, pressurePa, false);
        plant.setShaft(shaftRadPerS, 0);
        plant.advance(SETTLE_S, Double.POSITIVE_INFINITY);
        return plant.linePressurePa() >= pressurePa;
    }

    /** The circuit at a pressure with the element filled to it. */
    private Plant plant(Element element, Range range, double pressurePa, boolean electricPump) {
        Plant plant = new Plant(build, oilC, false, electricPump);
        plant.setRange(range);
        ApplyElementSpec spec = build.element(element);
        double[] volumes = new double[Element.COUNT];
        volumes[element.ordinal()] =
                spec.strokeVolumeM3() + spec.complianceM3PerPa() * Math.max(0, pressurePa - spec.touchPressurePa());
        plant.start(pressurePa, 0, volumes);
        plant.command(element, true);
        return plant;
    }
}
