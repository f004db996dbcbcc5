package linehold.simulator.faults;

import java.util.Arrays;
import java.util.List;
import linehold.controller.safety.TroubleCode;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.Element;

/** Says in words what a fault did and what was done about it, in the build's units. */
final class FaultSentences {
    private final Build build;
    private final Display display;

    FaultSentences(Build build) {
        this.build = build;
        display = new Display(build.units());
    }

    /** What it did to the line. */
    String effect(FaultJudge run, double faultS) {
        String over = Overpressure.is(build, run.highestPressurePa)
                ? "; it rose to " + display.pressure(run.highestPressurePa) + " in the model, in which nothing bursts"
                : "";
        return ofLowPressure(run, faultS) + over;
    }

    private String ofLowPressure(FaultJudge run, double faultS) {
        if (!Double.isNaN(run.slipS)) {
            return "the " + name(run.slipped) + " slipped under " + display.torque(Math.abs(run.slipTorqueNm)) + " "
                    + after(run.slipS - faultS) + lowest(run);
        }
        if (run.pressureLost()) {
            return "line pressure under an engaged element fell to " + display.pressure(run.lowestPressurePa) + " "
                    + after(run.lowestAtS - faultS) + "; nothing slipped";
        }
        if (Double.isInfinite(run.lowestPressurePa)) {
            return "no element was engaged after it";
        }
        return "line pressure stayed at " + display.pressure(run.lowestPressurePa) + " or above under every engaged"
                + " element";
    }

    /** What the controller did. */
    String reaction(FaultJudge run, double faultS) {
        String seen = Double.isNaN(run.codeS)
                ? "no trouble code"
                : String.join(", ", codes(run.codes)) + ", first " + after(run.codeS - faultS);
        return seen
                + switch (run.permission) {
                    case GRANTED -> "; drive stayed as in the healthy car";
                    case REDUCED ->
                        "; drive reduced to " + display.torque(run.torqueLimitNm) + " at least, "
                                + after(run.permissionAtS - faultS);
                    case WITHHELD -> "; drive withheld, first " + after(run.permissionAtS - faultS);
                };
    }

    /** Numbers of codes, sorted. */
    static List<String> codes(long bits) {
        return Arrays.stream(TroubleCode.values())
                .filter(code -> (bits & code.bit()) != 0)
                .map(TroubleCode::number)
                .sorted()
                .toList();
    }

    private String lowest(FaultJudge run) {
        return Double.isInfinite(run.lowestPressurePa)
                ? ""
                : "; lowest line pressure " + display.pressure(run.lowestPressurePa);
    }

    private String after(double seconds) {
        double size = Math.abs(seconds);
        String text = size < 1 ? display.shortTime(size) : display.time(size);
        return text + (seconds < 0 ? " before it" : " after it");
    }

    private static String name(Element element) {
        return switch (element) {
            case LOW_BAND -> "low band";
            case HIGH_CLUTCH -> "high clutch";
            case REVERSE_CLUTCH -> "reverse clutch";
        };
    }
}
