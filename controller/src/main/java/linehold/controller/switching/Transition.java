package linehold.controller.switching;

import static linehold.controller.switching.PumpState.ELECTRIC;
import static linehold.controller.switching.PumpState.HELP;
import static linehold.controller.switching.PumpState.INTERNAL;
import static linehold.controller.switching.PumpState.OFF;
import static linehold.controller.switching.PumpState.OVERLAP;
import static linehold.controller.switching.PumpState.PRIME;

import java.util.Arrays;
import java.util.List;

/**
 * One legal move of the pump state: from, to, why, and when.
 *
 * @param from state before
 * @param to state after
 * @param reason why, as recorded
 * @param when the guard in words, for {@code docs/states.md}
 * @param guard the guard
 */
public record Transition(PumpState from, PumpState to, SwitchReason reason, String when, Guard guard) {

    /** Whether a move is due in a situation. */
    @FunctionalInterface
    public interface Guard {
        boolean holds(Situation now);
    }

    /** All legal moves. From each state the first row whose guard holds is taken, one a tick. */
    public static final List<Transition> TABLE = List.of(
            // Key (LH-SW-9). At rest with the key off nothing needs pressure. A unit that restarts with the key off in
            // a
            // rolling car primes, and stays there without drive until the key is on or the car stands.
            row(OFF, PRIME, SwitchReason.KEY_ON, "key on", s -> s.keyOn),
            row(
                    OFF,
                    PRIME,
                    SwitchReason.SHAFT_TURNS_AT_POWER_UP,
                    "shaft turns, and was not seen at rest since power-up",
                    s -> s.restarted),
            row(
                    PRIME,
                    OFF,
                    SwitchReason.KEY_OFF_AT_STANDSTILL,
                    "key off, standstill confirmed, pump may stop",
                    Transition::atRest),
            row(
                    PRIME,
                    ELECTRIC,
                    SwitchReason.PRIMED,
                    "key on, relays tested (LH-RL-5) and pressure holds; without a usable sender: prime time over",
                    s -> s.keyOn && s.primed),

            // The pump runs because the shaft is slow (LH-SW-1, LH-SW-9).
            row(
                    ELECTRIC,
                    OFF,
                    SwitchReason.KEY_OFF_AT_STANDSTILL,
                    "key off, standstill confirmed, pump may stop",
                    Transition::atRest),
            row(
                    ELECTRIC,
                    OVERLAP,
                    SwitchReason.SPEED_ABOVE_SWITCH_OFF,
                    "speed above switch-off speed",
                    s -> s.aboveSwitchOff),

            // Both pumps run until hand-over is confirmed (LH-SW-2) and nothing asks for the electric pump.
            row(
                    OVERLAP,
                    ELECTRIC,
                    SwitchReason.SPEED_NOT_ABOVE_SWITCH_OFF,
                    "speed not above switch-off speed",
                    s -> !s.aboveSwitchOff),
            row(
                    OVERLAP,
                    INTERNAL,
                    SwitchReason.HAND_OVER_CONFIRMED,
                    "speed confirmed, hand-over pressure reached, pump may stop, nothing asks for help",
                    s -> s.handOverReady && s.mayStop && !s.helpWanted()),

            // The internal pump alone: every way out switches on in the same tick. Nothing may delay it (LH-SW-4).
            row(
                    INTERNAL,
                    ELECTRIC,
                    SwitchReason.SPEED_BELOW_SWITCH_ON,
                    "speed below switch-on speed",
                    s -> s.belowSwitchOn),
            row(
                    INTERNAL,
                    HELP,
                    SwitchReason.PRESSURE_LOST,
                    "pressure or pump feed lost (LH-PR-2, LH-RL-3)",
                    s -> s.pressureLost),
            row(
                    INTERNAL,
                    HELP,
                    SwitchReason.PRESSURE_BELOW_HELP,
                    "pressure below help pressure (LH-SW-5)",
                    s -> s.pressureLow),
            row(
                    INTERNAL,
                    HELP,
                    SwitchReason.SPEED_FALLING,
                    "carry speed nearer than the lead time (LH-SW-6)",
                    s -> s.carrySpeedNear),
            row(INTERNAL, HELP, SwitchReason.BRAKE_APPLIED, "brake applied below its speed (LH-SW-7)", s -> s.braking),

            // Help ends only over OVERLAP, so that it is confirmed like any other hand-over.
            row(
                    HELP,
                    ELECTRIC,
                    SwitchReason.SPEED_BELOW_SWITCH_ON,
                    "speed below switch-on speed",
                    s -> s.belowSwitchOn),
            row(
                    HELP,
                    OVERLAP,
                    SwitchReason.HELP_OVER,
                    "nothing asks for help, speed above switch-off speed",
                    s -> s.aboveSwitchOff && !s.helpWanted()));

    private static Transition row(PumpState from, PumpState to, SwitchReason reason, String when, Guard guard) {
        return new Transition(from, to, reason, when, guard);
    }

    private static boolean atRest(Situation s) {
        return !s.keyOn && s.standstillConfirmed && s.mayStop;
    }

    /** The rows that leave a state, in the table's order. */
    static Transition[] leaving(PumpState state) {
        return TABLE.stream().filter(row -> row.from() == state).toArray(Transition[]::new);
    }

    /** {@link #leaving} of every state, by ordinal. */
    static Transition[][] byState() {
        return Arrays.stream(PumpState.values()).map(Transition::leaving).toArray(Transition[][]::new);
    }
}
