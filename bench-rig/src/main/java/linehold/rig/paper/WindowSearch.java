package linehold.rig.paper;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.atomic.AtomicInteger;
import linehold.simulator.build.Build;
import linehold.simulator.window.Window;
import linehold.simulator.window.WindowFinder;

/** A search for the window of one build, with how far it has got. */
public final class WindowSearch implements Runnable {
    private final Build build;
    private final Deque<Stage> stages = new ArrayDeque<>();
    private volatile Window window;
    private volatile String trouble;

    private record Stage(String name, int steps, AtomicInteger done) {}

    /** {@code done} of {@code steps} of the stage it is in. */
    public record State(String stage, int done, int steps) {}

    WindowSearch(Build build) {
        this.build = build;
    }

    /** Null until it is found. */
    public Window window() {
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

    @Override
    public void run() {
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
}
