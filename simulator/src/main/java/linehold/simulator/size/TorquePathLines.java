package linehold.simulator.size;

import java.util.ArrayList;
import java.util.List;
import linehold.simulator.build.Build;
import linehold.simulator.build.Gear;
import linehold.simulator.build.InstallationKey;

/** The way of the torque: coupling, apply element, tyre, in every gear. */
final class TorquePathLines {
    private static final double GRAVITY = 9.80665;

    private TorquePathLines() {}

    static List<SizeLine> of(Standing at) {
        List<SizeLine> lines = new ArrayList<>();
        lines.add(shear(at));
        lines.add(bearing(at));
        for (Gear gear : List.of(Gear.FIRST, Gear.TOP, Gear.REVERSE)) {
            lines.add(tyre(at, gear));
            lines.add(element(at, gear));
        }
        return lines;
    }

    private static Spline spline(Standing at, Draft draft) {
        double teeth = draft.take(InstallationKey.COUPLING_TEETH, "N", Measure.COUNT);
        double major = draft.take(InstallationKey.COUPLING_MAJOR, "D_major", Measure.LENGTH);
        double minor = draft.take(InstallationKey.COUPLING_MINOR, "D_minor", Measure.LENGTH);
        double sharing = draft.take(InstallationKey.COUPLING_SHARING, "s", Measure.SHARE);
        double length = new ShaftFit(draft, false).leastEngagementM();
        draft.with("l", Measure.LENGTH, length)
                .with("T", Measure.TORQUE, at.build.car().motorPeakTorqueNm());
        return new Spline((int) teeth, major, minor, length, sharing);
    }

    private static SizeLine shear(Standing at) {
        Draft draft = at.line(Topic.TORQUE_PATH, "coupling-shear", "Shear of the coupling's teeth at peak motor torque")
                .formula("S_s = 2·T/(D·s·N·l·t), D = (D_major + D_minor)/2, t = π·D/(2·N), l least engagement")
                .source(
                        "Dudley 1957, read in a public copy; Shigley, from memory; 80 % with reserve is common practice")
                .note("Choose the allowable stress for shock and number of starts; stresses here are steady.");
        Spline spline = spline(at, draft);
        double allowed = draft.take(InstallationKey.COUPLING_SHEAR, "allowable", Measure.STRESS);
        return draft.atMost(Measure.STRESS, spline.shearPa(at.build.car().motorPeakTorqueNm()), 0.8 * allowed, allowed);
    }

    private static SizeLine bearing(Standing at) {
        Draft draft = at.line(
                        Topic.TORQUE_PATH, "coupling-bearing", "Flank pressure of the coupling at peak motor torque")
                .formula("S_c = 2·T/(D·s·N·l·h), h = (D_major − D_minor)/2, l least engagement")
                .source(
                        "Dudley 1957, read in a public copy, with s of the teeth; 80 % with reserve is common practice");
        Spline spline = spline(at, draft);
        double allowed = draft.take(InstallationKey.COUPLING_BEARING, "allowable", Measure.STRESS);
        return draft.atMost(
                Measure.STRESS, spline.bearingPa(at.build.car().motorPeakTorqueNm()), 0.8 * allowed, allowed);
    }

    /** Motor torque at which the driven tyres slide, N·m. */
    private static double slidingNm(Build build, Draft draft, Gear gear) {
        double grip = draft.take(InstallationKey.TYRE_GRIP, "grip", Measure.NUMBER);
        double load = draft.take(InstallationKey.TYRE_LOAD, "load", Measure.MASS);
        double radius = build.car().tyreRadiusM();
        double ratio = build.gears().totalRatio(gear);
        draft.with("tyre radius", Measure.LENGTH, radius).with("total ratio", Measure.NUMBER, ratio);
        return grip * load * GRAVITY * radius / ratio;
    }

    private static SizeLine tyre(Standing at, Gear gear) {
        String name = ElementLines.name(gear);
        Draft draft = at.line(
                        Topic.TORQUE_PATH, "tyre-" + name, "Motor torque at which the tyres slide, " + name + " gear")
                .formula("T = grip·m·g·r/i")
                .source("balance of forces at the tyre, load shift left out")
                .with("peak", Measure.TORQUE, ElementLines.peakNm(at.build, gear));
        return draft.information(Measure.TORQUE, slidingNm(at.build, draft, gear));
    }

    /** The element should not be what gives: the motor's peak or the tyre should be. */
    private static SizeLine element(Standing at, Gear gear) {
        String name = ElementLines.name(gear);
        Draft draft = at.line(
                        Topic.TORQUE_PATH, "path-" + name, "Element over what motor or tyres ask, " + name + " gear")
                .formula(
                        "T_capacity(p_set)/(share·min(T_peak, T_tyre)): torque is 1 in the coupling, share in the element,"
                                + " i at the wheels")
                .source("torque balance; the safety factor is the build's");
        double share = at.build.element(gear.element()).torqueShare();
        double capacity = ElementLines.capacity(at.build, gear).torqueNm(ElementLines.setPa(at.build, gear), true);
        double sliding = slidingNm(at.build, draft, gear);
        double asked = Math.min(ElementLines.peakNm(at.build, gear), sliding);
        draft.with("T_peak", Measure.TORQUE, ElementLines.peakNm(at.build, gear))
                .with("T_tyre", Measure.TORQUE, sliding)
                .with("in the coupling", Measure.TORQUE, asked)
                .with("share", Measure.NUMBER, share)
                .with("in the element", Measure.TORQUE, share * asked)
                .with("capacity", Measure.TORQUE, capacity)
                .with("at the wheels", Measure.TORQUE, asked * at.build.gears().totalRatio(gear));
        return draft.atLeast(
                Measure.NUMBER, capacity / (share * asked), at.build.limits().safetyFactor(), 1);
    }
}
