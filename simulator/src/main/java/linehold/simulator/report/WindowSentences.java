package linehold.simulator.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import linehold.simulator.build.Display;
import linehold.simulator.window.RollBack;
import linehold.simulator.window.Window;
import linehold.simulator.window.Window.Pair;
import linehold.simulator.window.Window.Price;
import linehold.simulator.window.Window.Proof;
import linehold.simulator.window.Window.Standstill;

/** Sentences on a window that terminal and page share. */
public final class WindowSentences {
    private WindowSentences() {}

    public static String pair(Window window, Display display) {
        Pair pair = window.pair();
        return "Recommended: electric pump on below " + display.speed(pair.onRadPerS()) + ", off above "
                + display.speed(pair.offRadPerS()) + ". It counts on the pickup alone; what the other ways of starting"
                + " buy is reserve. Lowered by " + display.speed(pair.marginRadPerS())
                + " the pair loses the hardest stop; as it stands the worst of all stops keeps "
                + display.pressure(pair.marginPa()) + " above the hold pressure.";
    }

    public static String proof(Window window, Proof proof) {
        String drives = "On " + window.drives() + " (" + proof.setting().title() + ") ";
        return proof.held()
                ? drives + "all " + Sentences.count(proof.runs(), "run") + " held."
                : drives + proof.lost() + " of " + Sentences.count(proof.runs(), "run") + " lost: " + proof.weakest()
                        + ".";
    }

    static String price(Price price) {
        return "There the pump runs " + Numbers.fixed(100 * price.pumpOnShare(), 0) + " % of the time and takes "
                + Numbers.fixed(price.watts(), 0) + " Wh an hour; the relay moves "
                + Numbers.fixed(price.relayOperationsPerHour(), 0) + " times an hour, "
                + (Double.isNaN(price.contactLifeH())
                        ? "and how long its contact lasts needs installation.relay.contact-rating in the build file."
                        : "so that its contact lasts " + Numbers.fixed(price.contactLifeH(), 0)
                                + " h of such driving.");
    }

    /** What a person should know beside the result. */
    public static List<String> notes(Window window, Display display) {
        List<String> notes = new ArrayList<>();
        for (Standstill one : window.standstill()) {
            if (one.fullPa() >= holdPa(window) && one.saggedPa() < holdPa(window)) {
                notes.add("With oil at " + display.temperature(one.oilC()) + " and the bus sagged to "
                        + Numbers.fixed(Window.SAGGED_VOLTS, 1) + " V the electric pump holds only "
                        + display.pressure(one.saggedPa()) + " at standstill: no window helps there, the bus must not"
                        + " sag that far in hot oil.");
            }
        }
        window.rollBacks().stream()
                .filter(one -> one.lowestPa() >= holdPa(window))
                .min(Comparator.comparingDouble(RollBack::mostRadPerS))
                .ifPresent(
                        one -> notes.add(
                                "Rolling back in a forward gear turns the internal pump backward, and it draws"
                                        + " oil out of the line. The electric pump runs by then and keeps the hold pressure up to "
                                        + display.speed(one.mostRadPerS()) + " backward with oil at "
                                        + display.temperature(one.oilC())
                                        + "; that is its flow, and no switch-on speed changes it: beyond, the brakes must hold the car."));
        return notes;
    }

    private static double holdPa(Window window) {
        return window.build().limits().holdPressurePa();
    }
}
