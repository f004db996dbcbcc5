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
            "pressure stayed below hold pressure at standstill longer than an engagement may last"),
    PUMP_FEED_LOST(
            "P0B09",
            "Electric/Auxiliary Transmission Fluid Pump A Motor Supply Voltage Circuit/Open",
            Severity.STOP,
            Reaction.WITHHOLD_AT_STANDSTILL,
            Clearing.WHEN_RELEASED,
            "LH-RL-3",
            "every fitted relay is on, but nothing shows that the pump is fed: contacts, their common fuse or wire"),
    MAIN_READBACK_LOST(
            "P1798",
            "Main Pump Relay Readback No Signal",
            Severity.WARNING,
            Reaction.BOTH_RELAYS,
            Clearing.WHEN_GONE,
            "LH-RL-1",
            "the pump is fed, but no voltage is read behind the main relay's contact"),
    STANDBY_READBACK_LOST(
            "P1799",
            "Standby Pump Relay Readback No Signal",
            Severity.WARNING,
            Reaction.BOTH_RELAYS,
            Clearing.WHEN_GONE,
            "LH-RL-1",
            "the pump is fed, but no voltage is read behind the standby relay's contact"),
    PUMP_CURRENT_NONE(
            "P2796",
            "Electric/Auxiliary Transmission Fluid Pump A Control Circuit/Open",
            Severity.WARNING,
            Reaction.DOUBT_PUMP,
            Clearing.WHEN_RELEASED,
            "LH-RL-4",
            "voltage behind a contact, but no pump current: motor or wire open"),
    PUMP_DRY(
            "P0C27",
            "Electric/Auxiliary Transmission Fluid Pump A Motor Current Low",
            Severity.WARNING,
            Reaction.DOUBT_PUMP,
            Clearing.WHEN_RELEASED,
            "LH-RL-4",
            "the pump draws less than it does against pressure, and pressure does not hold: it runs dry or the oil escapes"),
    PUMP_STALLED(
            "P0C2A",
            "Electric/Auxiliary Transmission Fluid Pump A Motor Stalled",
            Severity.WARNING,
            Reaction.DOUBT_PUMP,
            Clearing.WHEN_RELEASED,
            "LH-RL-4",
            "pump current stays near its value at standstill of the pump"),
    PUMP_CURRENT_SENSOR_LOST(
            "P1C26",
            "Pump Current Sensor No Signal",
            Severity.WARNING,
            Reaction.INFORM,
            Clearing.AT_KEY_OFF,
            "LH-RL-4",
            "the pump current sensor contradicts everything else; pump current is not judged"),
    PRIME_FAILED(
            "P17E1",
            "Prime Pressure Not Reached",
            Severity.STOP,
            Reaction.WITHHOLD_AT_STANDSTILL,
            Clearing.WHEN_RELEASED,
            "LH-PR-3",
            "pressure did not reach hold pressure within the prime limit"),
    SENDER_SUSPECT(
            "P0841",
            "Transmission Fluid Pressure Sensor/Switch A Circuit Range/Performance",
            Severity.WARNING,
            Reaction.WIDEN_WINDOW,
            Clearing.AT_KEY_OFF,
            "LH-PR-4",
            "the pressure sender did not move where pressure must have moved"),
    SUPPLY_LOW(
            "P0562",
            "System Voltage Low",
            Severity.WARNING,
            Reaction.INFORM,
            Clearing.WHEN_GONE,
            "LH-EL-1",
            "bus voltage below its least value"),
    SUPPLY_HIGH(
            "P0563",
            "System Voltage High",
            Severity.WARNING,
            Reaction.INFORM,
            Clearing.WHEN_GONE,
            "LH-EL-1",
            "bus voltage above its highest value"),
    UNIT_RESTARTED(
            "P1607",
            "Control Module Restarted While Shaft Turned",
            Severity.WARNING,
            Reaction.INFORM,
            Clearing.AT_KEY_OFF,
            "LH-SW-9",
            "the unit started anew in a moving car: the unit or its supply failed for a moment");

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
        DOUBT_PUMP("both relays on; where no sender tells the pressure, drive as if the pump's feed were lost"),
        REDUCE_DRIVE("both relays on, torque limited to what the apply elements carry"),
        WITHHOLD_AT_STANDSTILL(
                "both relays on; drive withheld at standstill, while moving limited to what the apply elements carry");

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
                "when the opposite is seen for the return time and the torque request is zero (standstill confirmed where no"
                        + " request is known)");

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
