package linehold.simulator.window;

import linehold.simulator.build.ApplyElementSpec;
import linehold.simulator.build.Build;
import linehold.simulator.build.CarSpec;
import linehold.simulator.build.Element;
import linehold.simulator.circuit.ElementCapacity;

/** Line pressure that the largest torque needs, with the safety factor. */
final class TorquePressure {
    private TorquePressure() {}

    /** Forward: the most of first and top, pulling and on the overrun, Pa. */
    static double forwardPa(Build build) {
        return Math.max(forwardPa(build, Element.LOW_BAND), forwardPa(build, Element.HIGH_CLUTCH));
    }

    /** The element that needs it. */
    static Element forwardElement(Build build) {
        return forwardPa(build, Element.LOW_BAND) >= forwardPa(build, Element.HIGH_CLUTCH)
                ? Element.LOW_BAND
                : Element.HIGH_CLUTCH;
    }

    private static double forwardPa(Build build, Element element) {
        CarSpec car = build.car();
        return Math.max(
                pressurePa(build, element, car.motorPeakTorqueNm(), true),
                pressurePa(build, element, car.overrunTorqueNm(), false));
    }

    /** In reverse, pulling, Pa. */
    static double reversePa(Build build) {
        return pressurePa(build, Element.REVERSE_CLUTCH, build.car().reversePeakTorqueNm(), true);
    }

    /** p = p_touch + safety·share·T/(capacity per Pa): capacity is proportional to the pressure above touch. */
    private static double pressurePa(Build build, Element element, double motorTorqueNm, boolean driving) {
        ApplyElementSpec spec = build.element(element);
        double perPa = new ElementCapacity(spec).torqueNm(spec.touchPressurePa() + 1e5, driving) / 1e5;
        return spec.touchPressurePa() + build.limits().safetyFactor() * spec.torqueShare() * motorTorqueNm / perPa;
    }
}
