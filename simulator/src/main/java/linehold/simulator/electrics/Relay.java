package linehold.simulator.electrics;

/** The two relays that can feed the electric pump. */
public enum Relay {
    MAIN,
    /** Takes over where the main relay fails; not fitted in every car. */
    STANDBY
}
