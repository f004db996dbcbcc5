package linehold.simulator.window;

import java.util.EnumSet;
import java.util.Set;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;

/** What else than the switch-on speed may switch the electric pump on in a search. */
public enum Setting {
    ALONE("speed alone", "LH-SW-1"),
    FALLING_SPEED("early switch-on from falling speed", "LH-SW-6"),
    HELP_PRESSURE("help-pressure start", "LH-SW-5"),
    BRAKE("brake switch", "LH-SW-7"),
    /** Every one of them that the build has on. */
    FITTED("all that this build has on", "");

    /** What can switch the electric pump on before the switch-on speed does. */
    enum Aid {
        FALLING_SPEED,
        HELP_PRESSURE,
        BRAKE
    }

    private final String title;
    private final String requirement;

    Setting(String title, String requirement) {
        this.title = title;
        this.requirement = requirement;
    }

    public String title() {
        return title;
    }

    /** The controller requirement behind it; empty for {@link #FITTED}. */
    public String requirement() {
        return requirement;
    }

    Set<Aid> aids(Build build) {
        return switch (this) {
            case ALONE -> EnumSet.noneOf(Aid.class);
            case FALLING_SPEED -> EnumSet.of(Aid.FALLING_SPEED);
            case HELP_PRESSURE -> EnumSet.of(Aid.HELP_PRESSURE);
            case BRAKE -> EnumSet.of(Aid.BRAKE);
            case FITTED -> fitted(build);
        };
    }

    /** The aids that the build's calibration has on and whose sensor is fitted. */
    private static Set<Aid> fitted(Build build) {
        Calibration calibration = build.calibration();
        Set<Aid> aids = EnumSet.noneOf(Aid.class);
        if (calibration.is(Key.FALLING_SPEED_PREDICTION)) {
            aids.add(Aid.FALLING_SPEED);
        }
        if (calibration.is(Key.SENDER_FITTED) && calibration.get(Key.HELP_PRESSURE) > 0) {
            aids.add(Aid.HELP_PRESSURE);
        }
        if (calibration.is(Key.BRAKE_FITTED) && calibration.get(Key.BRAKE_SWITCH_ON_SPEED) > 0) {
            aids.add(Aid.BRAKE);
        }
        return aids;
    }
}
