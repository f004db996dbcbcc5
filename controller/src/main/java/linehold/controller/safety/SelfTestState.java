package linehold.controller.safety;

/** How far the key-on test of the pump relays has come (LH-RL-5). */
public enum SelfTestState {
    /** Not done since key-on: the shaft was turning, or the bus too low to judge. The pump primes as ever. */
    NOT_DONE,
    /** Under way; drive is withheld. */
    RUNNING,
    /** Each relay closed and opened. */
    PASSED,
    /** A relay did not close or did not open; its trouble code says which. */
    FAILED
}
