package linehold.simulator.report;

import linehold.controller.DrivePermission;
import linehold.controller.switching.PumpState;
import linehold.simulator.build.Gear;
import linehold.simulator.run.Engagement;

/** What people call the values of our enums. */
public final class Words {
    private Words() {}

    public static String of(Gear gear) {
        return switch (gear) {
            case NEUTRAL -> "neutral";
            case FIRST -> "first";
            case TOP -> "top";
            case REVERSE -> "reverse";
        };
    }

    public static String of(Engagement engagement) {
        return switch (engagement) {
            case NONE -> "none";
            case ENGAGING -> "engaging";
            case ENGAGED -> "engaged";
        };
    }

    public static String of(PumpState state) {
        return switch (state) {
            case OFF -> "off";
            case PRIME -> "prime";
            case ELECTRIC -> "electric";
            case OVERLAP -> "overlap";
            case INTERNAL -> "internal";
            case HELP -> "help";
        };
    }

    public static String of(DrivePermission permission) {
        return switch (permission) {
            case GRANTED -> "granted";
            case REDUCED -> "reduced";
            case WITHHELD -> "withheld";
        };
    }
}
