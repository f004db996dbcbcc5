package linehold.rig.app;

import java.io.PrintStream;
import java.util.HashSet;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Set;
import linehold.rig.adapter.simulated.SimulatedPerson;
import linehold.rig.adapter.system.Keyboard;
import linehold.rig.procedure.Answer;
import linehold.rig.procedure.Ask;
import linehold.rig.procedure.Bench;
import linehold.rig.procedure.Cautions;
import linehold.rig.procedure.Finding;
import linehold.rig.procedure.Procedure;
import linehold.rig.procedure.ProcedureEngine;
import linehold.rig.procedure.ResultRecord;
import linehold.rig.procedure.Step;
import linehold.rig.procedure.View;
import linehold.simulator.build.Quantities;

/** Bench procedures on a terminal: shows what the engine shows, and passes on what a person types. */
final class BenchTerminal {
    private static final String BACK_AND_CLEAR = "\r\u001b[K";
    private static final String STOPPED = "Stopped by key.";
    private static final String LOST = "The terminal was lost.";

    private final ProcedureEngine engine;
    private final Bench bench;
    private final PrintStream out;
    /** Null where nobody types. */
    private final Keyboard keyboard;
    /** Reads the gauges of a simulated bench; null at a real one. */
    private final SimulatedPerson simulated;

    private final boolean live;
    private final StringBuilder typed = new StringBuilder();
    private final Set<Step> shownSteps = new HashSet<>();
    private Procedure procedure;
    private View shown;
    private int shownStep;
    private int shownFindings;
    private long shownQuestion;
    private boolean stopped;

    BenchTerminal(
            ProcedureEngine engine,
            Bench bench,
            PrintStream out,
            Keyboard keyboard,
            SimulatedPerson simulated,
            boolean live) {
        this.engine = engine;
        this.bench = bench;
        this.out = out;
        this.keyboard = keyboard;
        this.simulated = simulated;
        this.live = live && keyboard != null && keyboard.isTerminal();
    }

    /** Cautions, in full. */
    static void showCautions(PrintStream out) {
        out.println("Before anything moves:");
        Cautions.ALL.forEach(caution -> wrap("  * ", "    ", caution, out));
    }

    private static void wrap(String first, String rest, String text, PrintStream out) {
        StringBuilder line = new StringBuilder(first);
        int empty = first.length();
        for (String word : text.split(" ")) {
            if (line.length() > empty && line.length() + 1 + word.length() > 100) {
                out.println(line);
                line.setLength(0);
                line.append(rest);
                empty = rest.length();
            }
            line.append(line.length() > empty ? " " : "").append(word);
        }
        out.println(line);
    }

    /**
     * Waits until a person confirms the cautions.
     *
     * @return false where the person does not
     */
    static boolean confirmCautions(Keyboard keyboard, PrintStream out) {
        out.println("Escape or s, then and at any time, stops. Enter confirms that all of this is so.");
        while (true) {
            int key = keyboard.poll();
            if (key == Keyboard.ENTER) {
                return true;
            }
            if (key == Keyboard.ESCAPE || key == 's' || key == Keyboard.LOST || !pause()) {
                return false;
            }
        }
    }

    private static boolean pause() {
        try {
            Thread.sleep(20);
            return true;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    /** From now on Escape, and the loss of the keyboard, stop a procedure at once, whatever the screen does. */
    void listen() {
        if (keyboard != null) {
            keyboard.onStop(key -> engine.stop(key == Keyboard.LOST ? LOST : STOPPED));
        }
    }

    /** Shows what has changed and takes keys; called again and again. */
    void update() {
        View view = engine.view();
        if (view.procedure() != null && !engine.starting()) {
            show(view);
        }
        if (keyboard != null) {
            for (int key = keyboard.poll(); key != Keyboard.NONE; key = keyboard.poll()) {
                press(key, view);
                if (key == Keyboard.LOST) {
                    break;
                }
            }
        }
        if (live && view.running() && view != shown) {
            shown = view;
            out.print(BACK_AND_CLEAR + status(view));
            out.flush();
        }
    }

    /** Whether a person wants no further procedure. */
    boolean stopped() {
        return stopped;
    }

    /** A procedure begins. */
    void begin(Procedure next) {
        procedure = next;
        shownStep = 0;
        shownFindings = 0;
        shownSteps.clear();
        out.println();
        out.println(next.title() + " (" + next.key() + ")");
        wrap("", "", next.purpose(), out);
    }

    private void show(View view) {
        if (view.procedure() != procedure) {
            return;
        }
        for (; shownFindings < view.findings().size(); shownFindings++) {
            Finding finding = view.findings().get(shownFindings);
            keep(ResultRecord.line(finding).stripTrailing());
        }
        if (view.running() && view.stepNumber() != shownStep) {
            shownStep = view.stepNumber();
            if (shownSteps.add(view.step())) {
                keep(String.format(
                        Locale.ROOT,
                        "%d/%d %s",
                        view.stepNumber(),
                        view.steps(),
                        view.step().title()));
                if (!view.step().instruction().isEmpty()) {
                    keep("    " + view.step().instruction());
                }
            }
        }
        if (keyboard != null && view.question() > shownQuestion) {
            shownQuestion = view.question();
            typed.setLength(0);
            keep("    " + prompt(view.step().ask()));
        }
    }

    private String prompt(Ask ask) {
        String gauge = simulated == null ? "" : " (Enter: what the simulated gauge shows)";
        return switch (ask) {
            case CONFIRM -> "[Enter when it is so]";
            case YES_NO -> "[y or n]";
            case GAUGE_PRESSURE -> "[a pressure with its unit, then Enter]" + gauge;
            case OIL_TEMPERATURE -> "[a temperature with its unit, then Enter]" + gauge;
            case NOTHING -> "";
        };
    }

    private void press(int key, View view) {
        boolean number = view.question() > 0 && view.step().ask().quantity() != null;
        if (key == Keyboard.LOST) {
            stop(LOST);
        } else if (key == Keyboard.ESCAPE || !number && key == 's') {
            stop(STOPPED);
        } else if (view.question() == 0) {
            typed.setLength(0);
        } else if (key == Keyboard.ENTER) {
            enter(view);
        } else if (view.step().ask() == Ask.YES_NO && (key == 'y' || key == 'n')) {
            engine.answer(key == 'y' ? Answer.yes(view.question()) : Answer.no(view.question()));
        } else if (number && key == Keyboard.BACKSPACE) {
            typed.setLength(Math.max(0, typed.length() - 1));
        } else if (number) {
            typed.append((char) key);
        }
    }

    private void stop(String why) {
        stopped = true;
        engine.stop(why);
    }

    private void enter(View view) {
        Ask ask = view.step().ask();
        if (simulated != null && !simulated.handDone(view)) {
            keep("    the simulated hand is not done yet");
        } else if (ask == Ask.CONFIRM) {
            engine.answer(Answer.yes(view.question()));
        } else if (ask.quantity() != null) {
            // A degree sign arrives as two bytes; degC needs none.
            String text = typed.toString().strip();
            OptionalDouble value = text.isEmpty() && simulated != null
                    ? OptionalDouble.of(simulated.value(ask))
                    : Quantities.parse(text, ask.quantity());
            if (value.isPresent()) {
                engine.answer(new Answer(view.question(), value.getAsDouble()));
            } else {
                keep("    found '" + text + "', expected " + ask.quantity().noun() + " with its unit ("
                        + ask.quantity().labels() + ")");
            }
            typed.setLength(0);
        }
    }

    /** A procedure has ended. */
    void end(ResultRecord record, String written) {
        show(engine.view());
        keep(record.result().outcome().word().toUpperCase(Locale.ROOT)
                + (record.result().sentence().isEmpty()
                        ? ""
                        : ": " + record.result().sentence()));
        keep("written: " + written);
    }

    private void keep(String line) {
        out.println((live ? BACK_AND_CLEAR : "") + line);
    }

    private String status(View view) {
        String line = String.format(Locale.ROOT, "    %5.1f s  line ", view.stepS())
                + bench.display().pressure(view.linePressurePa()) + "  shaft "
                + bench.display().speed(view.shaftRadPerS())
                + (Double.isNaN(view.pumpAmps()) ? "" : String.format(Locale.ROOT, "  pump %.1f A", view.pumpAmps()))
                + "  Escape stops";
        return typed.length() == 0 ? line : line + "  > " + typed;
    }
}
