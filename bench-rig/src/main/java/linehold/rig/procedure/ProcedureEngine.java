package linehold.rig.procedure;

import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.atomic.AtomicReference;
import linehold.controller.Controller;
import linehold.controller.DrivePermission;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.calibration.Key;
import linehold.controller.safety.SelfTestState;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;
import linehold.rig.loop.Decision;

/**
 * Runs one bench procedure at a time, step by step, in the tick. It knows nothing of who shows it: others start
 * procedures, answer and stop from their own threads, and read {@link #view}; the tick takes these up. Whatever ends a
 * procedure, the pump runs and drive is withheld from that very tick on, and so it stays until the next one is started.
 */
public final class ProcedureEngine implements Decision {
    private static final int MOST_ANSWERS = 16;
    private static final long VIEW_EVERY_NS = 100_000_000;

    private record Order(Procedure procedure, List<Step> steps) {}

    private final Bench bench;
    private final boolean normallyClosed;
    private final AtomicReference<Order> wanted = new AtomicReference<>();
    private final AtomicReference<String> stop = new AtomicReference<>();
    private final ArrayBlockingQueue<Answer> answers = new ArrayBlockingQueue<>(MOST_ANSWERS);
    private volatile View view = View.NONE;

    private Procedure procedure;
    private List<Step> steps = List.of();
    private int index;
    private long question;
    private Reading reading;
    private Watch watch;
    private Findings findings = new Findings();
    private Controller controller;
    private long startNs;
    private long longestTickNs;
    private boolean stepBegins;
    private Result result;
    private long viewNs;

    public ProcedureEngine(Bench bench) {
        this.bench = bench;
        normallyClosed = bench.calibration().is(Key.NORMALLY_CLOSED_CONTACT);
        reading = new Reading(bench.calibration());
    }

    /**
     * Starts a procedure with the next tick. Whoever calls has shown the cautions and had them confirmed.
     *
     * @throws IllegalStateException where one is running
     */
    public void start(Procedure next) {
        start(next, next.steps(bench));
    }

    /** The same with other steps. */
    void start(Procedure next, List<Step> nextSteps) {
        Order order = new Order(next, nextSteps);
        if (view.running() || starting()) {
            throw new IllegalStateException("a procedure is running");
        }
        stop.set(null);
        if (!wanted.compareAndSet(null, order)) {
            throw new IllegalStateException("a procedure is running");
        }
    }

    /** Ends what runs, with the next tick. @param why one sentence */
    public void stop(String why) {
        stop.compareAndSet(null, why);
    }

    /** @return false where too many answers wait */
    public boolean answer(Answer answer) {
        return answers.offer(answer);
    }

    /** How things stand. */
    public View view() {
        return view;
    }

    /** Whether a procedure waits for its first tick; until then {@link #view} shows the one before. */
    public boolean starting() {
        return wanted.get() != null;
    }

    /** What is asked of the shaft now. */
    public Shaft shaft() {
        View now = view;
        return now.step() == null
                ? Shaft.still(linehold.controller.Range.NEUTRAL)
                : now.step().shaft();
    }

    @Override
    public void step(long nowNs, Inputs in, Outputs out) {
        try {
            advance(nowNs, in, out);
        } catch (RuntimeException defect) {
            end(Outcome.FAILED, "The program has gone wrong itself (" + defect + "): a defect to report.", defect);
            command(Command.SAFE, out);
            publish();
            wanted.set(null);
        }
    }

    private void advance(long nowNs, Inputs in, Outputs out) {
        longestTickNs = Math.max(longestTickNs, nowNs - reading.nowNs);
        reading.take(nowNs, in);
        Order order = wanted.get();
        boolean changed = order != null;
        if (changed) {
            begin(order);
        }
        if (procedure == null || result != null) {
            answers.clear();
            command(Command.SAFE, out);
        } else {
            changed |= run(nowNs, in, out);
        }
        if (changed || nowNs - viewNs >= VIEW_EVERY_NS) {
            publish();
        }
        if (order != null) {
            wanted.set(null);
        }
        reading.endTick();
    }

    private void begin(Order order) {
        procedure = order.procedure();
        steps = order.steps();
        index = 0;
        findings = new Findings();
        watch = new Watch(bench, procedure.needsPressure());
        startNs = reading.nowNs;
        longestTickNs = 0;
        result = null;
        stepBegins = true;
        controller = null;
    }

    /** One tick of the step of the moment. */
    private boolean run(long nowNs, Inputs in, Outputs out) {
        boolean changed = stepBegins;
        Step now = steps.get(index);
        if (stepBegins) {
            stepBegins = false;
            reading.beginStep();
            answers.clear();
            question += now.ask() == Ask.NOTHING ? 0 : 1;
        }
        hear(now);
        if (!broken()) {
            decide(now.command(), nowNs, in, out);
            work(now);
        }
        if (result != null) {
            command(Command.SAFE, out);
        }
        return changed || stepBegins || result != null;
    }

    private void hear(Step now) {
        for (Answer answer = answers.poll(); answer != null; answer = answers.poll()) {
            if (now.ask() != Ask.NOTHING && answer.question() == question && !reading.answered()) {
                reading.answer(answer);
                if (now.ask() == Ask.OIL_TEMPERATURE) {
                    reading.typeOilC(answer.value());
                }
            }
        }
    }

    /** Whether the procedure ends now, whatever its step says. */
    private boolean broken() {
        String why = stop.getAndSet(null);
        String limit = watch.broken(reading);
        if (why != null) {
            end(Outcome.STOPPED, why, null);
        } else if (index > 0 && !reading.keyOn) {
            end(Outcome.STOPPED, "The key was switched off.", null);
        } else if (limit != null) {
            end(Outcome.FAILED, limit, null);
        }
        return result != null;
    }

    private void work(Step now) {
        boolean done = now.work().done(reading, findings);
        if (findings.failure() != null) {
            end(Outcome.FAILED, findings.failure(), null);
        } else if (done) {
            index++;
            stepBegins = true;
            if (index == steps.size()) {
                end(Outcome.PASSED, "", null);
            }
        } else if (reading.stepS() >= now.longestS()) {
            boolean nobody = now.ask() != Ask.NOTHING;
            end(nobody ? Outcome.STOPPED : Outcome.FAILED, now.late().apply(reading), null);
        }
    }

    private void end(Outcome outcome, String sentence, Throwable defect) {
        double durationS = (reading.nowNs - startNs) * 1e-9;
        // A program that was held up has measured times that are too long.
        findings.info(
                "longest-tick",
                "Longest time between two readings",
                bench.display().shortTimeScale(),
                longestTickNs * 1e-9);
        result = new Result(procedure, outcome, sentence, findings.all(), durationS, reading.oilC, defect);
    }

    private void decide(Command command, long nowNs, Inputs in, Outputs out) {
        if (command != Command.CONTROLLER) {
            controller = null;
            command(command, out);
            return;
        }
        if (controller == null) {
            controller = new Controller(bench.calibration());
        }
        controller.step(nowNs, in, out);
        reading.decided = out;
    }

    /** Every field of the frame, as if there were no controller. */
    private void command(Command command, Outputs out) {
        boolean main = command != Command.PUMP_OFF && command != Command.STANDBY_RELAY;
        out.mainRelayCoil = main != normallyClosed;
        out.standbyRelayCoil = command == Command.STANDBY_RELAY;
        out.pumpWanted = command.feeds();
        out.permission = DrivePermission.WITHHELD;
        out.torqueLimitNm = 0;
        out.warningLamp = command == Command.SAFE || command == Command.SIGNALS;
        out.buzzer = command == Command.SIGNALS;
        out.state = PumpState.OFF;
        out.reason = SwitchReason.POWER_UP;
        out.selfTest = SelfTestState.NOT_DONE;
        out.activeCodes = 0;
        out.storedCodes = 0;
        out.shaftSpeedRadPerS = reading.shaftRadPerS();
        out.linePressurePa = reading.pressurePa;
    }

    private void publish() {
        viewNs = reading.nowNs;
        if (procedure == null) {
            view = View.idle(reading);
            return;
        }
        int shown = Math.min(index, steps.size() - 1);
        Step now = steps.get(shown);
        boolean asks = result == null && !stepBegins && now.ask() != Ask.NOTHING && !reading.answered();
        view = new View(
                procedure,
                now,
                shown + 1,
                steps.size(),
                stepBegins ? 0 : reading.stepS(),
                asks ? question : 0,
                reading.shaftRadPerS(),
                reading.pressurePa,
                reading.amps,
                reading.oilC,
                findings.all(),
                result);
    }
}
