package linehold.rig.adapter.system;

import java.io.IOException;
import java.util.concurrent.locks.LockSupport;
import linehold.rig.port.Watchdog;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Passes completed ticks on to something that may block, at its own pace and on its own thread: once an interval, and only
 * where a tick has been completed since. When ticks stop, or this thread does, nothing is passed on.
 */
abstract class TickWatch implements Watchdog, AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(TickWatch.class);
    private static final long LONGEST_END_MS = 1000;
    /** The first tick is waited for, and told at once. */
    private static final long FIRST_NS = 10_000_000;

    private final long intervalNs;
    private final Thread thread;
    /** Written by the loop alone. */
    private volatile long ticks;

    private long passedOn;
    private boolean complaining;
    private volatile boolean stopping;

    /** @param intervalNs between two signs of life, ns */
    TickWatch(String name, long intervalNs) {
        this.intervalNs = intervalNs;
        thread = new Thread(this::run, name);
        thread.setDaemon(true);
        thread.setPriority(Thread.MAX_PRIORITY);
    }

    /** Tells that ticks go on. */
    abstract void pass() throws IOException;

    /** Tells that the program ends in good order. */
    abstract void end() throws IOException;

    void start() {
        thread.start();
    }

    @Override
    @SuppressWarnings("NonAtomicOperationOnVolatileField")
    public final void feed() {
        ticks = ticks + 1;
    }

    private void run() {
        while (!stopping) {
            round();
            LockSupport.parkNanos(passedOn == 0 ? FIRST_NS : intervalNs);
        }
    }

    /** One interval's work. */
    final void round() {
        long now = ticks;
        if (now == passedOn) {
            return;
        }
        passedOn = now;
        try {
            pass();
            complaining = false;
        } catch (IOException e) {
            if (!complaining) {
                LOG.warn("{} cannot be fed: {}", thread.getName(), e.toString());
            }
            complaining = true;
        }
    }

    /** Only for an orderly end; whatever ends otherwise leaves the watchdog to do its work. */
    @Override
    public final void close() {
        stopping = true;
        LockSupport.unpark(thread);
        try {
            thread.join(LONGEST_END_MS);
            end();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (IOException e) {
            LOG.warn("{} cannot be told of the end: {}", thread.getName(), e.toString());
        }
    }
}
