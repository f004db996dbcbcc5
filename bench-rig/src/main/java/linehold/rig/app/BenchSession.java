package linehold.rig.app;

import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import linehold.rig.adapter.simulated.SimulatedPerson;
import linehold.rig.loop.ControlLoop;
import linehold.rig.procedure.Bench;
import linehold.rig.procedure.Outcome;
import linehold.rig.procedure.Procedure;
import linehold.rig.procedure.ProcedureEngine;
import linehold.rig.procedure.Result;
import linehold.rig.procedure.ResultRecord;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** One procedure after another on a running loop, each with its record, until one does not pass. */
final class BenchSession {
    private static final Logger LOG = LoggerFactory.getLogger(BenchSession.class);
    private static final long LOOK_EVERY_MS = 50;

    private final ProcedureEngine engine;
    private final Bench bench;
    private final BenchTerminal terminal;
    private final Deque<Procedure> waiting;
    private final String told;
    private final InstantSource wall;
    private final Path folder;
    private Instant started;
    private Procedure running;
    private boolean over;
    private int status;
    private volatile boolean ending;
    private volatile Throwable defect;

    BenchSession(
            ProcedureEngine engine,
            Bench bench,
            BenchTerminal terminal,
            List<Procedure> procedures,
            String told,
            InstantSource wall,
            Path folder) {
        this.engine = engine;
        this.bench = bench;
        this.terminal = terminal;
        waiting = new ArrayDeque<>(procedures);
        this.told = told;
        this.wall = wall;
        this.folder = folder;
    }

    /**
     * Runs all of it and closes the wiring.
     *
     * @param answering where a simulated person answers: the loop then runs here, in virtual time; else null
     * @return exit status
     */
    int run(Wiring wiring, SimulatedPerson answering) {
        CountDownLatch closed = new CountDownLatch(1);
        Thread hook = new Thread(() -> interrupted(wiring.loop(), closed), "stop");
        Runtime.getRuntime().addShutdownHook(hook);
        try (wiring) {
            if (answering != null) {
                answering.afterEachTick(() -> {
                    look();
                    if (over) {
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
        if (defect != null) {
            LOG.error("the bench has ended by a defect; the pump was left running", defect);
            return Main.DEFECT;
        }
        return status;
    }

    private void runBeside(Wiring wiring) {
        Thread thread = new Thread(wiring::run, "control-loop");
        thread.setPriority(Thread.MAX_PRIORITY);
        thread.setUncaughtExceptionHandler((where, what) -> defect = what);
        thread.start();
        try {
            while (thread.isAlive() && !over) {
                look();
                Thread.sleep(LOOK_EVERY_MS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            Stopping.end(wiring.loop(), thread);
        }
        if (defect == null && !thread.isAlive()) {
            wiring.endWatchdogs();
        }
    }

    /** Ctrl-C, a lost session, an orderly kill: the outputs go to their safe levels, then the program ends. */
    private void interrupted(ControlLoop loop, CountDownLatch closed) {
        ending = true;
        engine.stop("The program was told to end.");
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

    /** Shows how things stand, takes keys, goes on to what is next. */
    private void look() {
        terminal.update();
        if (engine.starting() || engine.view().running()) {
            return;
        }
        if (running != null) {
            finish(engine.view().result());
            running = null;
        }
        if (ending || terminal.stopped()) {
            over = true;
            status = Math.max(status, waiting.isEmpty() ? 0 : 1);
        }
        over |= waiting.isEmpty();
        if (!over) {
            running = waiting.remove();
            started = wall.instant();
            terminal.begin(running);
            engine.start(running);
        }
    }

    private void finish(Result result) {
        ResultRecord record = new ResultRecord(result, bench, told, started);
        Path json = record.write(folder);
        terminal.end(record, json.toString());
        if (result.outcome() != Outcome.PASSED) {
            status = 1;
            over = true;
        }
        if (result.defect() != null) {
            defect = result.defect();
        }
    }
}
