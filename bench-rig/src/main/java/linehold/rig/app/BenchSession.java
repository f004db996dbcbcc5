package linehold.rig.app;

import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import linehold.rig.adapter.simulated.SimulatedPerson;
import linehold.rig.procedure.Bench;
import linehold.rig.procedure.Outcome;
import linehold.rig.procedure.Procedure;
import linehold.rig.procedure.ProcedureEngine;
import linehold.rig.procedure.Result;
import linehold.rig.procedure.ResultRecord;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** One procedure after another on a running loop, each with its record, until one does not pass. */
final class BenchSession implements BenchLoop.Onlooker {
    private static final Logger LOG = LoggerFactory.getLogger(BenchSession.class);

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
    private Throwable defect;

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
        Throwable broken = new BenchLoop(engine::stop, this).run(wiring, answering);
        if (broken != null) {
            LOG.error("the bench has ended by a defect; the pump was left running", broken);
            return Main.DEFECT;
        }
        return status;
    }

    /** Shows how things stand, takes keys, goes on to what is next. */
    @Override
    public boolean look(boolean ending) {
        terminal.update();
        if (engine.starting() || engine.view().running()) {
            return false;
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
        return over;
    }

    @Override
    public Throwable defect() {
        return defect;
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
