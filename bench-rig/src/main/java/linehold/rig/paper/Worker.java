package linehold.rig.paper;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Executor;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * One thread for what takes long: work is done in turn, the latest of one asker takes the place of what that asker wanted
 * before, and whoever ends the page ends it. The thread is made when it is first needed and keeps no program alive.
 */
public final class Worker implements Executor, AutoCloseable {
    /** Each of them holds a thread of the server. */
    private static final int MOST_WAITING = 4;

    private final ExecutorService thread;
    private final AtomicInteger waiting = new AtomicInteger();
    private final Map<Object, Future<?>> latest = new HashMap<>();

    /** Too many wait for an answer; the person may ask again. */
    public static final class BusyException extends RuntimeException {
        BusyException() {
            super("others wait for an answer already; ask again in a second");
        }
    }

    public Worker(String name) {
        this(name, () -> {});
    }

    /** @param atStart what the thread does first, such as to step back behind other threads; its own threads inherit that */
    public Worker(String name, Runnable atStart) {
        thread = Executors.newSingleThreadExecutor(work -> {
            Thread made = new Thread(
                    () -> {
                        atStart.run();
                        work.run();
                    },
                    name);
            made.setDaemon(true);
            return made;
        });
    }

    /** Does it in its turn; once closed, never. */
    @Override
    public void execute(Runnable work) {
        try {
            thread.execute(work);
        } catch (RejectedExecutionException e) {
            // The page has ended: nobody is left who would see the answer.
        }
    }

    /**
     * Does it in its turn and waits for it. What the same asker still waits for ends here, whether it runs or not.
     *
     * @param asker null where nothing is to be given up for it
     * @throws BusyException where too many wait
     * @throws CancellationException where a later question of the same asker, or the end of the page, came before the answer
     */
    public <T> T answer(Object asker, Callable<T> work) {
        if (waiting.incrementAndGet() > MOST_WAITING) {
            waiting.decrementAndGet();
            throw new BusyException();
        }
        Future<T> mine = null;
        try {
            mine = submit(asker, work);
            return mine.get();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CancellationException("interrupted");
        } catch (ExecutionException e) {
            if (thread.isShutdown()) {
                throw ended();
            }
            if (e.getCause() instanceof RuntimeException cause) {
                throw cause;
            }
            throw new IllegalStateException(e.getCause());
        } finally {
            waiting.decrementAndGet();
            synchronized (latest) {
                latest.remove(asker, mine);
            }
        }
    }

    /** How many wait for an answer. */
    int waiting() {
        return waiting.get();
    }

    private <T> Future<T> submit(Object asker, Callable<T> work) {
        synchronized (latest) {
            try {
                Future<T> mine = thread.submit(work);
                Future<?> before = asker == null ? null : latest.put(asker, mine);
                if (before != null) {
                    before.cancel(true);
                }
                return mine;
            } catch (RejectedExecutionException e) {
                throw ended();
            }
        }
    }

    private static CancellationException ended() {
        return new CancellationException("the page has ended");
    }

    /** Ends what runs and what waits. */
    @Override
    public void close() {
        List<Runnable> waiting = thread.shutdownNow();
        for (Runnable work : waiting) {
            if (work instanceof Future<?> asked) {
                asked.cancel(false);
            }
        }
    }
}
