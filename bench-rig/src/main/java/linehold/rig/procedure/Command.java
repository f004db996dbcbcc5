package linehold.rig.procedure;

/** What a step makes of the relays and of drive. Everything but {@link #CONTROLLER} withholds drive. */
public enum Command {
    /** The pump runs, the lamp is lit: how every procedure begins, pauses and ends (LH-RL-6). */
    SAFE,
    /** No relay feeds the pump. */
    PUMP_OFF,
    /** The main relay feeds the pump. */
    MAIN_RELAY,
    /** The standby relay alone feeds the pump. */
    STANDBY_RELAY,
    /** As safe, with lamp and buzzer on. */
    SIGNALS,
    /** The controller decides, as in the car; it starts afresh with the first such step. */
    CONTROLLER;

    /** Whether the pump is fed by a step's own command; not known where the controller decides. */
    boolean feeds() {
        return switch (this) {
            case SAFE, MAIN_RELAY, STANDBY_RELAY, SIGNALS -> true;
            case PUMP_OFF, CONTROLLER -> false;
        };
    }
}
