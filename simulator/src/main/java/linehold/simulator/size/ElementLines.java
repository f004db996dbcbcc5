package linehold.simulator.size;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import linehold.controller.Range;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.build.Gear;
import linehold.simulator.build.InstallationKey;
import linehold.simulator.circuit.ElementCapacity;

/** What band and clutches carry at the pressure held, against motor torque and gear ratio. */
final class ElementLines {
    private static final String CLUTCH =
            "discs: T = μ·z·r_m·(A·p − F_ret), uniform wear (Shigley); band: T = r·(A·p − F_ret)·(e^(μθ) − 1), capstan";
    private static final double GRAVITY = 9.80665;
    /** First ratios of common two-speed planetary gear sets; examples, common practice. */
    private static final double[] EXAMPLE_FIRST_RATIOS = {1.76, 1.82};

    private ElementLines() {}

    static List<SizeLine> of(Standing at) {
        List<SizeLine> lines = new ArrayList<>();
        for (Gear gear : List.of(Gear.FIRST, Gear.TOP, Gear.REVERSE)) {
            lines.add(atSetPressure(at, gear));
            lines.add(atHoldPressure(at, gear));
        }
        for (double ratio : EXAMPLE_FIRST_RATIOS) {
            lines.add(exampleRatio(at, ratio));
        }
        return lines;
    }

    static String name(Gear gear) {
        return switch (gear) {
            case FIRST -> "first";
            case TOP -> "top";
            case REVERSE -> "reverse";
            case NEUTRAL -> "neutral";
        };
    }

    private static String element(Element element) {
        return switch (element) {
            case LOW_BAND -> "Band";
            case HIGH_CLUTCH -> "Top clutch";
            case REVERSE_CLUTCH -> "Reverse clutch";
        };
    }

    /** Largest motor torque in a gear, N·m. */
    static double peakNm(Build build, Gear gear) {
        return gear == Gear.REVERSE
                ? build.car().reversePeakTorqueNm()
                : build.car().motorPeakTorqueNm();
    }

    /** Set pressure of the regulator in a gear, Pa. */
    static double setPa(Build build, Gear gear) {
        return build.regulator().setPressurePa(gear == Gear.REVERSE ? Range.REVERSE : Range.DRIVE);
    }

    static ElementCapacity capacity(Build build, Gear gear) {
        return new ElementCapacity(build.element(gear.element()));
    }

    private static Draft draft(Standing at, Gear gear, String key, String title, double pressurePa) {
        double share = at.build.element(gear.element()).torqueShare();
        double peak = peakNm(at.build, gear);
        return at.line(Topic.ELEMENTS, key + "-" + name(gear), element(gear.element()) + title)
                .with("p", Measure.PRESSURE, pressurePa)
                .with("capacity", Measure.TORQUE, capacity(at.build, gear).torqueNm(pressurePa, true))
                .with("motor torque", Measure.TORQUE, peak)
                .with("share", Measure.NUMBER, share)
                .with("demand", Measure.TORQUE, share * peak);
    }

    private static SizeLine atSetPressure(Standing at, Gear gear) {
        double pressurePa = setPa(at.build, gear);
        return draft(at, gear, "element-driving", " over peak torque at the set pressure", pressurePa)
                .formula("T_capacity(p)/(share·T_motor)")
                .source(CLUTCH + "; the safety factor is the build's")
                .atLeast(
                        Measure.NUMBER,
                        capacity(at.build, gear).margin(pressurePa, peakNm(at.build, gear)),
                        at.build.limits().safetyFactor(),
                        1);
    }

    /**
     * At hold pressure alone an element need not carry the motor's peak, because the controller limits torque to what the
     * line can carry; it must carry what starts the car on its hill, or the peak without the safety factor.
     */
    private static SizeLine atHoldPressure(Standing at, Gear gear) {
        double factor = at.build.limits().safetyFactor();
        double carried = capacity(at.build, gear).motorTorquePerPa(factor)
                * (at.holdPa - at.build.element(gear.element()).touchPressurePa());
        double grade = at.installation.si(InstallationKey.START_GRADE);
        double weight = at.build.car().massKg() * GRAVITY;
        // force along the slope: grade is height over way along level ground
        double force = weight * (grade + at.build.car().rollingCoefficient()) / Math.sqrt(1 + grade * grade);
        double start = force * at.build.car().tyreRadiusM() / at.build.gears().totalRatio(gear);
        double peak = peakNm(at.build, gear);
        return draft(at, gear, "element-standing", ": motor torque at hold pressure", at.holdPa)
                .formula(
                        "T_capacity(p_hold)/(share·safety factor);  ok: peak;  must: m·g·(sin γ + f·cos γ)·r/i, or the peak with factor 1")
                .with("safety factor", Measure.NUMBER, factor)
                .with("hill", Measure.SHARE, grade)
                .with("total ratio", Measure.NUMBER, at.build.gears().totalRatio(gear))
                .with("torque to start on it", Measure.TORQUE, start)
                .source(CLUTCH + "; that the hill counts is assumed")
                .note("Between the two the controller must limit motor torque until pressure has risen (LH-PR-5).")
                .atLeast(Measure.TORQUE, carried, peak, Math.min(start, peak / factor));
    }

    private static SizeLine exampleRatio(Standing at, double ratio) {
        double peak = at.build.car().motorPeakTorqueNm();
        double capacity = capacity(at.build, Gear.FIRST).torqueNm(at.holdPa, true);
        String text = String.format(Locale.ROOT, "%.2f", ratio);
        return at.line(Topic.ELEMENTS, "band-example-" + text, "Band at hold pressure over peak, first ratio " + text)
                .formula(
                        "T_capacity(p_hold)/((i − 1)·T_motor): torques on the gear set sum to zero, the band holds the rest")
                .with("capacity", Measure.TORQUE, capacity)
                .with("i", Measure.NUMBER, ratio)
                .with("band torque", Measure.TORQUE, (ratio - 1) * peak)
                .with(
                        "share in the build",
                        Measure.NUMBER,
                        at.build.element(Element.LOW_BAND).torqueShare())
                .source(
                        "torque balance of a gear set whose held member the band holds; the ratio is an example of common"
                                + " practice")
                .information(Measure.NUMBER, capacity / ((ratio - 1) * peak));
    }
}
