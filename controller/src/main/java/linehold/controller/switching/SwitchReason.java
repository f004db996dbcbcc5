package linehold.controller.switching;

/** Why the pump state changed; never blank. */
public enum SwitchReason {
    /** The controller has just started. */
    POWER_UP,
    /** The key was switched on. */
    KEY_ON,
    /** The unit has started with the key off, and the shaft turns. */
    SHAFT_TURNS_AT_POWER_UP,
    /** The key is off and the shaft has come to rest. */
    KEY_OFF_AT_STANDSTILL,
    /** The line holds, or the prime time is over where no sender can tell. */
    PRIMED,
    /** Shaft speed is below the switch-on speed, or the pickup is lost and counts as standstill. */
    SPEED_BELOW_SWITCH_ON,
    /** Shaft speed is not above the switch-off speed any more. */
    SPEED_NOT_ABOVE_SWITCH_OFF,
    /** Shaft speed is above the switch-off speed. */
    SPEED_ABOVE_SWITCH_OFF,
    /** The internal pump was fast enough for the confirm time and pressure is there. */
    HAND_OVER_CONFIRMED,
    /** Pressure was lost and drive is not yet given back. */
    PRESSURE_LOST,
    /** Line pressure is below the help pressure. */
    PRESSURE_BELOW_HELP,
    /** The speed is about to reach the carry speed. */
    SPEED_FALLING,
    /** The brake is applied at low speed. */
    BRAKE_APPLIED,
    /** Nothing asks for help any more. */
    HELP_OVER
}
