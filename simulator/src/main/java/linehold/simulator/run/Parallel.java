package linehold.simulator.run;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

/** Runs independent tasks on all cores. Results come back in the order of the tasks, whatever the number of cores. */
public final class Parallel {
    private static volatile int kept;

    private Parallel() {}

    /** From now on this many cores, but never all, are left to other work of this program, such as a control loop. */
    public static void keepFree(int cores) {
        kept = cores;
    }

    /**
     * @param done called after each task, from any thread
     * @throws RuntimeException what the first failing task (in order) threw
     */
    public static <T> List<T> all(List<? extends Callable<T>> tasks, Runnable done) {
        ExecutorService pool = Executors.newFixedThreadPool(
                Math.max(1, Math.min(tasks.size(), Runtime.getRuntime().availableProcessors() - kept)), task -> {
                    Thread thread = new Thread(task, "run");
                    // An interrupted command must not wait for what is still running.
                    thread.setDaemon(true);
                    return thread;
                });
        try {
            List<Future<T>> futures = new ArrayList<>();
            for (Callable<T> task : tasks) {
                futures.add(pool.submit(() -> {
                    T result = task.call();
                    done.run();
                    return result;
                }));
            }
            List<T> results = new ArrayList<>();
            for (Future<T> future : futures) {
                results.add(future.get());
            }
            return results;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("interrupted", e);
        } catch (ExecutionException e) {
            if (e.getCause() instanceof RuntimeException) {
                throw (RuntimeException) e.getCause();
            }
            throw new IllegalStateException(e.getCause());
        } finally {
            pool.shutdownNow();
        }
    }
}
