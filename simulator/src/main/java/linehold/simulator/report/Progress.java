package linehold.simulator.report;

import java.io.PrintStream;
import me.tongfei.progressbar.ConsoleProgressBarConsumer;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import me.tongfei.progressbar.ProgressBarStyle;

/** How far long work has got. {@link #step} may be called from many threads. */
public interface Progress extends AutoCloseable {
    /** One unit of work is done. */
    void step();

    @Override
    void close();

    /** Says nothing: for a pipe, a log file, a test. */
    static Progress silent() {
        return new Progress() {
            @Override
            public void step() {}

            @Override
            public void close() {}
        };
    }

    /**
     * A bar on standard error that wipes itself when it is closed, so that standard output stays clean and the result
     * stands alone on the screen.
     *
     * @param terminal whether standard error is a terminal; without one nothing is written
     * @param task what is being done, a word or two
     * @param steps how often {@link #step} will be called
     */
    static Progress onTerminal(boolean terminal, String task, long steps) {
        return terminal ? on(System.err, task, steps) : silent();
    }

    /** The bar on any stream, 80 columns wide. */
    static Progress on(PrintStream out, String task, long steps) {
        ProgressBar bar = new ProgressBarBuilder()
                .setTaskName(task)
                .setInitialMax(steps)
                .setStyle(ProgressBarStyle.ASCII)
                .setUpdateIntervalMillis(200)
                .setConsumer(new ConsoleProgressBarConsumer(out, 80))
                .clearDisplayOnFinish()
                .build();
        return new Progress() {
            @Override
            public void step() {
                bar.step();
            }

            @Override
            public void close() {
                bar.close();
            }
        };
    }
}
