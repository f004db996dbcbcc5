package linehold.rig.app;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import linehold.rig.adapter.simulated.SimulatedPerson;
import linehold.rig.loop.ControlLoop;

/** A bench's control loop, from its first tick to its orderly end, and beside it whoever looks at it. */
final class BenchLoop {
    private static final long LOOK_EVERY_MS = 50;

    /** Looks at the bench again and again. */
    interface Onlooker {
        /**
         * @param ending the program was told to end
         * @return whether all is over
         */
        boolean look(boolean ending);

        /** What it has found to be wrong in the program itself; null for nothing. */
        Throwable defect();
    }

    private final Consumer<String> stop;
    private final Onlooker onlooker;
    private boolean over;
    private volatile boolean ending;
    private volatile Throwable loopDefect;

    /** @param stop stops what runs; takes the reason */
    BenchLoop(Consumer<String> stop, Onlooker onlooker) {
        this.stop = stop;
        this.onlooker = onlooker;
    }

    /**
     * Runs the loop and closes the wiring.
     *
     * @param answering where a simulated person answers: the loop then runs here, in virtual time; else null
     * @return what went wrong in the program itself; null where nothing did
     */
    Throwable run(Wiring wiring, SimulatedPerson answering) {
        CountDownLatch closed = new CountDownLatch(1);
        Thread hook = new Thread(() -> interrupted(wiring.loop(), closed), "stop");
        Runtime.getRuntime().addShutdownHook(hook);
        try (wiring) {
            if (answering != null) {
                answering.afterEachTick(() -> {
                    if (onlooker.look(ending)) {
                        wiring.loop().stop();
                    }
                });
                wiring.loop().run();
            } else {
                runBeside(wiring);
            }
        } finally {
            closed.countDown();
            Stopping.removeHook(hook);
        }
        return defect();
    }

    private Throwable defect() {
        return loopDefect != null ? loopDefect : onlooker.defect();
    }

    private void runBeside(Wiring wiring) {
        Thread thread = new Thread(wiring::run, "control-loop");
        thread.setPriority(Thread.MAX_PRIORITY);
        thread.setUncaughtExceptionHandler((where, what) -> loopDefect = what);
        thread.start();
        try {
            while (thread.isAlive() && !over) {
                over = onlooker.look(ending);
                Thread.sleep(LOOK_EVERY_MS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            Stopping.end(wiring.loop(), thread);
        }
        if (defect() == null && !thread.isAlive()) {
            wiring.endWatchdogs();
        }
    }

    /** Ctrl-C, a lost session, an orderly kill: the outputs go to their safe levels, then the program ends. */
    private void interrupted(ControlLoop loop, CountDownLatch closed) {
        ending = true;
        stop.accept("The program was told to end.");
        try {
            // First the orderly way, with a record; then the loop alone.
            if (!closed.await(Stopping.LONGEST_STOP_MS / 2, TimeUnit.MILLISECONDS)) {
                loop.stop();
                closed.await(Stopping.LONGEST_STOP_MS, TimeUnit.MILLISECONDS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
