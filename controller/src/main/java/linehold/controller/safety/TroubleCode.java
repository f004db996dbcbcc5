package linehold.controller.safety;

/**
 * Every trouble code, one row each. Numbers and titles are SAE J2012's where one fits, as given by public lists of the
 * generic codes (secondary source; the standard's own annex was not read); P1 numbers are the range that SAE J2012 leaves
 * to the maker, with titles of our own. The ordinal is the bit in a set of codes: new rows go to the end.
 */
public enum TroubleCode {
    LATE_TICK(
            "P0607",
            "Control Module Performance",
            Severity.WARNING,
            Reaction.INFORM,
            Clearing.AT_KEY_OFF,
            "LH-TK-4",
            "a step came later than the late-tick limit"),
    PICKUP_NOISY(
            "P0716",
            "Input/Turbine Shaft Speed Sensor A Circuit Range/Performance",
            Severity.WARNING,
            Reaction.INFORM,
            Clearing.WHEN_GONE,
            "LH-SP-2",
            "too many edges within a minute were closer than any shaft speed allows"),
    PICKUP_LOST(
            "P0717",
            "Input/Turbine Shaft Speed Sensor A Circuit No Signal",
            Severity.WARNING,
            Reaction.COUNT_AS_STANDSTILL,
            Clearing.WHEN_GONE,
            "LH-SP-3",
            "pulses stopped although the shaft must be turning"),
    MAIN_RELAY_STUCK_OFF(
            "P2797",
            "Electric/Auxiliary Transmission Fluid Pump A Performance/Stuck Off",
            Severity.WARNING,
            Reaction.BOTH_RELAYS,
            Clearing.AT_KEY_OFF,
            "LH-RL-1",
            "pump wanted, but no voltage behind the main relay's contact"),
    MAIN_RELAY_WELDED(
            "P27A1",
            "Electric/Auxiliary Transmission Fluid Pump A Stuck On",
            Severity.WARNING,
            Reaction.INFORM,
            Clearing.WHEN_GONE,
            "LH-RL-2",
            "pump not wanted, but voltage stays behind the main relay's contact"),
    STANDBY_RELAY_STUCK_OFF(
            "P1797",
            "Standby Pump Relay Contact Stuck Off",
            Severity.WARNING,
            Reaction.INFORM,
            Clearing.AT_KEY_OFF,
            "LH-RL-1",
            "standby relay wanted, but no voltage behind its contact"),
    STANDBY_RELAY_WELDED(
            "P17A1",
            "Standby Pump Relay Contact Stuck On",
            Severity.WARNING,
            Reaction.INFORM,
            Clearing.WHEN_GONE,
            "LH-RL-2",
            "no relay wanted, but voltage stays behind the standby relay's contact"),
    SENDER_LOST(
            "P0840",
            "Transmission Fluid Pressure Sensor/Switch A Circuit",
            Severity.WARNING,
            Reaction.WIDEN_WINDOW,
            Clearing.WHEN_GONE,
            "LH-PR-1",
            "the pressure sender's signal left its band"),
    PRESSURE_LOST_MOVING(
            "P0868",
            "Transmission Fluid Pressure Low",
            Severity.STOP,
            Reaction.REDUCE_DRIVE,
            Clearing.WHEN_RELEASED,
            "LH-PR-2",
            "pressure fell below hold pressure with the shaft turning"),
    PRESSURE_LOST_STANDING(
            "P27E1",
            "Electric/Auxiliary Transmission Fluid Pump A Pressure Too Low",
            Severity.STOP,
            Reaction.REDUCE_DRIVE,
            Clearing.WHEN_RELEASED,
            "LH-PR-2",
            "pressure stayed below hold pressure at standstill longer than an engagement may last");

    /** What people are told, mildest first. */
    public enum Severity {
        /** Warning lamp: drive on, have it seen to. */
        WARNING,
        /** Warning lamp and buzzer: the clutches are at risk now. */
        STOP
    }

    /** What the controller does about it, mildest first. The electric pump is never switched off by a code. */
    public enum Reaction {
        INFORM("none: the pump runs as before, or already runs"),
        WIDEN_WINDOW("switch-over by speed alone, with a widened window"),
        COUNT_AS_STANDSTILL("shaft counts as standing: electric pump on"),
        BOTH_RELAYS("standby relay on with the main relay"),
        REDUCE_DRIVE("both relays on, torque limited to what the apply elements carry");

        private final String meaning;

        Reaction(String meaning) {
            this.meaning = meaning;
        }

        public String meaning() {
            return meaning;
        }
    }

    /** When the code is active no longer. It stays stored. */
    public enum Clearing {
        WHEN_GONE("when the cause is gone"),
        AT_KEY_OFF("at key-off and standstill"),
        WHEN_RELEASED(
                "when pressure is back for its time and the torque request is zero (standstill confirmed where no request is"
                        + " known)");

        private final String meaning;

        Clearing(String meaning) {
            this.meaning = meaning;
        }

        public String meaning() {
            return meaning;
        }
    }

    private final String number;
    private final String title;
    private final Severity severity;
    private final Reaction reaction;
    private final Clearing clearing;
    private final String requirement;
    private final String cause;

    TroubleCode(
            String number,
            String title,
            Severity severity,
            Reaction reaction,
            Clearing clearing,
            String requirement,
            String cause) {
        this.number = number;
        this.title = title;
        this.severity = severity;
        this.reaction = reaction;
        this.clearing = clearing;
        this.requirement = requirement;
        this.cause = cause;
    }

    /** For example {@code P0717}. */
    public String number() {
        return number;
    }

    public String title() {
        return title;
    }

    public Severity severity() {
        return severity;
    }

    public Reaction reaction() {
        return reaction;
    }

    public Clearing clearing() {
        return clearing;
    }

    /** The requirement that raises it, for example {@code LH-SP-3}. */
    public String requirement() {
        return requirement;
    }

    /** What was seen, half a sentence. */
    public String cause() {
        return cause;
    }

    /** This code's bit in a set of codes. */
    public long bit() {
        return 1L << ordinal();
    }

    /** The codes whose reaction is at least the given one, as bits. */
    static long reactingAtLeast(Reaction least) {
        long bits = 0;
        for (TroubleCode code : values()) {
            if (code.reaction.compareTo(least) >= 0) {
                bits |= code.bit();
            }
        }
        return bits;
    }

    /** The codes of at least the given severity, as bits. */
    static long severeAtLeast(Severity least) {
        long bits = 0;
        for (TroubleCode code : values()) {
            if (code.severity.compareTo(least) >= 0) {
                bits |= code.bit();
            }
        }
        return bits;
    }
}
