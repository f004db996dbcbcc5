package linehold.rig.paper;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import linehold.simulator.build.Build;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.Verdict;
import linehold.simulator.window.Window;
import linehold.simulator.window.WindowFinder;

/** Answers what a person asks about the window of one build. Each answer is computed once and kept. */
public final class WindowDesk {
    /** The seed that {@code prove} takes where none is given. */
    private static final long SEED = 1;

    private static final int KEPT_VERDICTS = 16;
    private static final int MOST_WAITING = 4;

    private final Build build;
    private final Map<Asked, Verdict> verdicts = new LinkedHashMap<>() {
        @Override
        protected boolean removeEldestEntry(Map.Entry<Asked, Verdict> eldest) {
            return size() > KEPT_VERDICTS;
        }
    };
    private final AtomicInteger waiting = new AtomicInteger();
    private final Deque<Stage> stages = new ArrayDeque<>();
    private Thread finder;
    private volatile Window window;
    private volatile String trouble;

    private record Asked(long calibrationChecksum, UnitSystem units) {}

    private record Stage(String name, int steps, AtomicInteger done) {}

    /** How far the search for the window is: {@code done} of {@code steps} of the stage it is in. */
    public record State(String stage, int done, int steps) {}

    /** Too many questions at once; the person may ask again. */
    public static final class BusyException extends RuntimeException {
        BusyException() {
            super("other windows are being proved; ask again when they are done");
        }
    }

    public WindowDesk(Build build) {
        this.build = build;
    }

    public Build build() {
        return build;
    }

    /** The window of the build, or null while it is searched for; the first call begins the search. */
    public synchronized Window window() {
        if (finder == null) {
            finder = new Thread(this::find, "window");
            finder.setDaemon(true);
            finder.start();
        }
        return window;
    }

    /** Why there will be no answer; null where there is no such reason. */
    public String trouble() {
        return trouble;
    }

    public State state() {
        synchronized (stages) {
            Stage last = stages.peekLast();
            return last == null ? new State("begins", 0, 1) : new State(last.name, last.done.get(), last.steps);
        }
    }

    private void find() {
        try {
            window = new WindowFinder(build, build.limits().oilTemperaturesC(), this::begin).find();
        } catch (RuntimeException e) {
            // Without this the page would wait for ever.
            trouble = "the window cannot be searched: " + e.getMessage();
        }
    }

    private Runnable begin(String name, int steps) {
        Stage stage = new Stage(name, steps, new AtomicInteger());
        synchronized (stages) {
            stages.add(stage);
        }
        return stage.done::incrementAndGet;
    }

    /**
     * Proves the demonstration drives with another window, as {@code prove} does.
     *
     * @param units of the sentences
     * @throws linehold.simulator.build.InputException where the window is none
     * @throws BusyException where too many ask
     */
    public Verdict verdict(TriedWindow tried, UnitSystem units) {
        Build changed = tried.of(build.withUnits(units));
        if (waiting.incrementAndGet() > MOST_WAITING) {
            waiting.decrementAndGet();
            throw new BusyException();
        }
        try {
            synchronized (verdicts) {
                return verdicts.computeIfAbsent(
                        new Asked(changed.calibration().checksum(), units), asked -> prove(changed));
            }
        } finally {
            waiting.decrementAndGet();
        }
    }

    private static Verdict prove(Build changed) {
        return new Prover(changed, SEED)
                .proveWithoutCloseUps(
                        Prover.grid(BuiltInDrives.all(changed), changed.limits().oilTemperaturesC()));
    }
}
