package linehold.simulator.faults;

import java.util.Locale;

/** The distinct moments of driving at which a fault is tried. */
public enum Phase {
    KEY_ON_PRIME("key-on, priming"),
    STANDING_IN_GEAR("standing in gear"),
    CREEPING("creeping"),
    PULLING_AWAY("pulling away at full torque"),
    HAND_OVER_UP("hand-over to the internal pump"),
    CRUISING("cruising"),
    GEAR_CHANGE("gear change"),
    NORMAL_BRAKING("normal braking"),
    PANIC_STOP("panic stop"),
    HOLD_ON_HILL("hold on a hill"),
    ROLL_BACK("roll-back"),
    REVERSING("reverse manoeuvre"),
    KEY_OFF_ROLLING("key-off while rolling");

    private final String title;

    Phase(String title) {
        this.title = title;
    }

    public String title() {
        return title;
    }

    /** Its name in files and on the command line: {@code key-on-prime}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
