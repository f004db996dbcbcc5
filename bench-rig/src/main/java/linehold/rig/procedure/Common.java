package linehold.rig.procedure;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import linehold.controller.Range;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;

/** Steps and words that several procedures share. */
final class Common {
    private static final double PRIME_RESERVE_S = 5;
    /** Below this the line counts as empty, Pa; assumed: above a sender's zero error. */
    private static final double EMPTY_PA = 40_000;

    private static final double LEAST_OFF_S = 5;
    private static final double LONGEST_OFF_S = 120;

    /** What no pressure can be asked of. */
    static final String NOT_FED = "No voltage behind the main contact with the relay on: run the procedure wiring.";

    private Common() {}

    /** The first step of each procedure: everything as it must be, the pump in its safe state. */
    static Step prepare(Bench bench, Range range) {
        String turn = range == Range.NEUTRAL
                ? "Select N, foot off the brake pedal, shaft at rest."
                : "Select D, foot off the brake pedal, shaft at rest: the band fills.";
        return Step.asking(
                "Prepare", "Key on. " + turn, Ask.CONFIRM, Command.SAFE, Shaft.still(range), (now, findings) -> {
                    if (!now.answered()) {
                        return false;
                    }
                    if (!now.keyOn) {
                        findings.fail("The key reads off: switch it on, or look after its line.");
                    } else if (now.range != null && now.range != range) {
                        findings.fail("The selected range reads " + letter(now.range) + ", needed is " + letter(range)
                                + ": select it, or look after its lines.");
                    } else if (now.shaftRadPerS() > bench.calibration().get(Key.STANDSTILL_SPEED)) {
                        findings.fail("The shaft turns at " + bench.display().speed(now.shaftRadPerS())
                                + ", needed is rest: it turns, or the pickup's line picks up noise.");
                    }
                    return true;
                });
    }

    private static String letter(Range range) {
        return range.name().substring(0, 1);
    }

    /** Lets the line settle with the pump on. */
    static Step settle(Bench bench, Range range, Settling settling) {
        return Step.of(
                "Pump on, line settles",
                Command.MAIN_RELAY,
                Shaft.still(range),
                30,
                now -> "Line pressure does not settle with the pump on; it is "
                        + bench.display().pressure(now.pressurePa)
                        + " now: air in the oil, a pump that draws air, or a valve that hunts.",
                (now, findings) -> {
                    boolean settled = settling.settled(now);
                    if (settled && !now.closed(now.mainVolts)) {
                        findings.fail(NOT_FED);
                    }
                    return settled;
                });
    }

    /** The line as a night leaves it: where it has a sender, seen empty. */
    static Step empty(Bench bench, Shaft still) {
        boolean senderFitted = bench.calibration().is(Key.SENDER_FITTED);
        return Step.of(
                "Pump off, line empties",
                Command.PUMP_OFF,
                still,
                LONGEST_OFF_S,
                now -> "The line keeps " + bench.display().pressure(now.pressurePa)
                        + " with the pump off: the pump is still fed, or the sender is not at zero (procedures wiring,"
                        + " sender).",
                (now, findings) -> now.stepS() >= LEAST_OFF_S && (!senderFitted || now.pressurePa < EMPTY_PA));
    }

    /** The controller primes as at key-on: from an empty line, by which it also judges its sender (LH-PR-4). */
    static Step prime(Bench bench, Shaft shaft) {
        double longestS = bench.calibration().at(Key.PRIME_LIMIT_TIME, Double.NaN) + PRIME_RESERVE_S;
        return Step.of(
                "Controller primes",
                Command.CONTROLLER,
                shaft,
                longestS,
                now -> "The controller has not primed" + codes(now) + ": run the procedure prime.",
                (now, findings) -> now.decided.state == PumpState.ELECTRIC);
    }

    /** Active trouble codes for a sentence; empty for none. */
    static String codes(Reading now) {
        List<String> words = new ArrayList<>();
        for (TroubleCode code : TroubleCode.values()) {
            if ((now.decided.activeCodes & code.bit()) != 0) {
                words.add(code.number() + " " + code.title());
            }
        }
        return words.isEmpty() ? "" : " (" + String.join(", ", words) + ")";
    }

    /** Fails where the controller has raised a code. */
    static void noCodes(Reading now, Findings findings) {
        if (now.decided.activeCodes != 0) {
            findings.fail("The controller has raised a trouble code" + codes(now) + ".");
        }
    }

    /** Why the controller does not hand over. */
    static String noHandOver(Bench bench, Reading now) {
        Calibration calibration = bench.calibration();
        String shows = "No hand-over: the shaft shows " + bench.display().speed(now.shaftRadPerS()) + ", wanted above "
                + bench.display().speed(calibration.get(Key.SWITCH_OFF_SPEED));
        if (calibration.is(Key.SENDER_FITTED)) {
            shows += "; the line " + bench.display().pressure(now.pressurePa) + ", wanted at least "
                    + bench.display().pressure(calibration.get(Key.HAND_OVER_PRESSURE));
        }
        return shows + (now.brake ? "; the brake pedal is applied" : "") + codes(now) + ".";
    }

    static String count(long n, String noun) {
        return String.format(Locale.ROOT, "%d %s%s", n, noun, n == 1 ? "" : "s");
    }
}
