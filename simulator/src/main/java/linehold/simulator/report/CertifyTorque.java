package linehold.simulator.report;

import linehold.controller.calibration.Key;
import linehold.simulator.build.ApplyElementSpec;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.build.LimitsSpec;
import linehold.simulator.certify.SliceProof;

/** The motor torque that is carried for certain: the guaranteed piston pressure put to the controller's own torque lines. */
final class CertifyTorque {
    private CertifyTorque() {}

    /** In first, without the safety factor, of the car as written, N·m. */
    static double firstNm(Build build, SliceProof slice) {
        return nm(build, Element.LOW_BAND, Key.FIRST_TORQUE_PER_PRESSURE, slice);
    }

    static double topNm(Build build, SliceProof slice) {
        return nm(build, Element.HIGH_CLUTCH, Key.TOP_TORQUE_PER_PRESSURE, slice);
    }

    static double reverseNm(Build build, SliceProof slice) {
        return nm(build, Element.REVERSE_CLUTCH, Key.REVERSE_TORQUE_PER_PRESSURE, slice);
    }

    private static double nm(Build build, Element element, Key perPressure, SliceProof slice) {
        ApplyElementSpec spec = build.element(element);
        LimitsSpec limits = build.limits();
        double aboveTouchPa = Math.max(0, slice.lowestPistonPa() - spec.touchPressurePa());
        return build.calibration().get(perPressure) * limits.safetyFactor() * aboveTouchPa;
    }
}
