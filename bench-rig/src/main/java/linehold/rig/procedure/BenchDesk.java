package linehold.rig.procedure;

import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.OptionalDouble;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;

/**
 * Procedures chosen one by one by whoever holds the bench key, each with its record. For any thread; what reaches the tick
 * is queued by the engine.
 */
public final class BenchDesk {
    private static final int MOST_KEPT = 200;

    private final ProcedureEngine engine;
    private final Bench bench;
    private final BenchKey key;
    private final Helper helper;
    private final String told;
    private final InstantSource wall;
    private final Path folder;
    private final Deque<Kept> kept = new ArrayDeque<>();
    private Procedure running;
    private Instant started;
    private boolean closed;
    private Throwable defect;

    /** What is asked cannot be done as things stand; the message says why in one sentence. */
    public static final class RefusedException extends RuntimeException {
        private static final long serialVersionUID = 1;

        RefusedException(String why) {
            super(why);
        }
    }

    /** Only for whoever holds the bench key. */
    public static final class NotHeldException extends RuntimeException {
        private static final long serialVersionUID = 1;

        NotHeldException() {
            super("This browser does not hold the bench key (any more): take it first.");
        }
    }

    /**
     * A procedure that has ended.
     *
     * @param file its record; null where it could not be written
     * @param problem why not; null where it was
     */
    public record Kept(Result result, String file, String problem) {}

    /**
     * @param helper at a simulated bench; null at a real one
     * @param told what is on the other side of the lines, as records have it
     * @param folder of the records
     */
    public BenchDesk(
            ProcedureEngine engine,
            Bench bench,
            BenchKey key,
            Helper helper,
            String told,
            InstantSource wall,
            Path folder) {
        this.engine = engine;
        this.bench = bench;
        this.key = key;
        this.helper = helper;
        this.told = told;
        this.wall = wall;
        this.folder = folder;
    }

    /**
     * Hands out the key.
     *
     * @param who takes it, as others are told
     * @param cautions {@link Cautions#MARK} of those that were shown and confirmed
     * @return the secret to show from now on
     * @throws RefusedException where another one has it, or where a procedure that has lost it is still to end
     * @throws InputException where the cautions have not been confirmed
     */
    public synchronized String takeKey(String who, String cautions) {
        if (!Cautions.MARK.equals(cautions)) {
            throw new InputException("cautions: expected them confirmed as they are shown now; load the page again");
        }
        if (key.held()) {
            throw new RefusedException("Another browser holds the bench key; this one can watch and stop.");
        }
        if (busy()) {
            throw new RefusedException("A procedure is just being stopped; ask again in a second.");
        }
        return key.take(who).orElseThrow();
    }

    /**
     * A sign of life of the holder.
     *
     * @throws NotHeldException where the key is not the caller's, or not any more
     */
    public void beat(String secret) {
        if (!key.renew(secret)) {
            throw new NotHeldException();
        }
    }

    /** The holder has done. What runs is stopped. */
    public void giveBackKey(String secret) {
        key.giveBack(secret);
    }

    /** Who holds the key; null where nobody does. */
    public String holder() {
        return key.who();
    }

    /**
     * Starts a procedure.
     *
     * @throws NotHeldException where the key is not the caller's
     * @throws RefusedException where one is running
     * @throws InputException where there is none of that name, or the build lacks what it needs
     */
    public synchronized void start(String secret, String name) {
        checkHeld(secret);
        Procedure next = Arrays.stream(Procedure.values())
                .filter(procedure -> procedure.key().equals(name))
                .findFirst()
                .orElseThrow(() -> new InputException("procedure: found none of that name, expected one of the list"));
        if (!next.fits(bench.build())) {
            throw new InputException(name + ": found a build without a pressure sender, expected one that has it");
        }
        if (closed) {
            throw new RefusedException("The bench is being shut down.");
        }
        look();
        if (busy()) {
            throw new RefusedException(running.title() + " is running; stop it first.");
        }
        started = wall.instant();
        engine.start(next);
        running = next;
    }

    /**
     * Answers a question with yes or no.
     *
     * @throws NotHeldException where the key is not the caller's
     * @throws RefusedException where the question is not asked any more, or the simulated hand is not done yet
     */
    public void answer(String secret, long question, boolean yes) {
        Ask ask = asked(secret, question);
        if (ask.quantity() != null) {
            throw new InputException("answer: expected " + ask.quantity().noun() + " with its unit");
        }
        if (ask == Ask.CONFIRM && !yes) {
            throw new InputException("answer: expected a confirmation; who cannot confirm stops");
        }
        give(yes ? Answer.yes(question) : Answer.no(question));
    }

    /** The same with what a person typed. @throws InputException where that is not the quantity that is asked for */
    public void answer(String secret, long question, String typed) {
        Ask ask = asked(secret, question);
        OptionalDouble value =
                ask.quantity() == null ? OptionalDouble.empty() : Quantities.parse(typed.strip(), ask.quantity());
        if (value.isEmpty() || !Double.isFinite(value.getAsDouble())) {
            throw new InputException("answer: found '" + typed.strip() + "', expected "
                    + (ask.quantity() == null
                            ? "yes or no"
                            : ask.quantity().noun() + " with its unit ("
                                    + ask.quantity().labels() + ")"));
        }
        give(new Answer(question, value.getAsDouble()));
    }

    private Ask asked(String secret, long question) {
        checkHeld(secret);
        View view = engine.view();
        if (engine.starting() || question <= 0 || view.question() != question) {
            throw new RefusedException("That question is not asked any more.");
        }
        if (helper != null && !helper.handDone(view)) {
            throw new RefusedException("The simulated hand is not done yet.");
        }
        return view.step().ask();
    }

    private void give(Answer answer) {
        if (!engine.answer(answer)) {
            throw new RefusedException("Too many answers at once.");
        }
    }

    private void checkHeld(String secret) {
        if (!key.heldBy(secret)) {
            throw new NotHeldException();
        }
    }

    /** Stops what runs: anybody may. @param why one sentence for the record */
    public void stop(String why) {
        engine.stop(why);
    }

    /** Writes the record of what has ended. To be called again and again. */
    public synchronized void look() {
        if (running == null || busy()) {
            return;
        }
        Result result = engine.view().result();
        running = null;
        if (result.defect() != null) {
            defect = result.defect();
        }
        kept.addFirst(keep(result));
        if (kept.size() > MOST_KEPT) {
            kept.removeLast();
        }
    }

    private Kept keep(Result result) {
        try {
            return new Kept(
                    result,
                    new ResultRecord(result, bench, told, started).write(folder).toString(),
                    null);
        } catch (InputException e) {
            return new Kept(result, null, e.getMessage());
        }
    }

    /** No further procedure is started; the one that runs is stopped. */
    public synchronized void close(String why) {
        closed = true;
        engine.stop(why);
    }

    /** Whether a procedure runs, or will with the next tick. */
    public boolean busy() {
        return engine.starting() || engine.view().running();
    }

    /** What has ended, the last one first. */
    public synchronized List<Kept> kept() {
        return List.copyOf(kept);
    }

    /** What went wrong in the program itself; null where nothing did. */
    public synchronized Throwable defect() {
        return defect;
    }

    public View view() {
        return engine.view();
    }

    public Bench bench() {
        return bench;
    }

    /** Null at a real bench. */
    public Helper helper() {
        return helper;
    }
}
