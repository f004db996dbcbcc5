package linehold.rig.app;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import linehold.controller.calibration.Key;
import linehold.rig.adapter.simulated.SimulatedHand;
import linehold.rig.adapter.simulated.SimulatedPerson;
import linehold.rig.adapter.system.SystemClock;
import linehold.rig.adapter.system.WallClock;
import linehold.rig.adapter.web.BenchRoutes;
import linehold.rig.adapter.web.PageServer;
import linehold.rig.adapter.web.PageSettings;
import linehold.rig.procedure.Bench;
import linehold.rig.procedure.BenchDesk;
import linehold.rig.procedure.BenchKey;
import linehold.rig.procedure.KeyGuard;
import linehold.rig.procedure.ProcedureEngine;
import linehold.rig.procedure.Result;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.fault.Fault;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A bench whose procedures are chosen on the page, led through there and stopped there. */
final class BenchPage implements BenchLoop.Onlooker {
    private static final Logger LOG = LoggerFactory.getLogger(BenchPage.class);

    /**
     * What the command was given.
     *
     * @param told what is on the other side of the lines, as records have it
     * @param folder of the records
     */
    record Setup(Build build, RigOptions options, List<Fault> faults, int cycles, String told, Path folder) {
        boolean simulated() {
            return options.io == RigOptions.Io.SIMULATED;
        }
    }

    private final PrintStream out;
    private final ProcedureEngine engine;
    private final BenchDesk desk;
    private final Wiring wiring;
    private BenchDesk.Kept shown;

    private BenchPage(Setup setup, PrintStream out) {
        this.out = out;
        Build build = setup.build;
        Bench bench = new Bench(build, setup.cycles);
        engine = new ProcedureEngine(bench);
        BenchKey key = new BenchKey(new SystemClock()::nowNs, PageOptions::secret);
        if (setup.simulated()) {
            SimulatedHand hand =
                    new SimulatedHand(engine::shaft, build.calibration().get(Key.CONTROL_PERIOD));
            SimulatedPerson person = new SimulatedPerson(engine, hand, false);
            KeyGuard guard = new KeyGuard(key, engine, person);
            wiring = Wiring.simulatedBench(build, setup.options, hand, person, guard, setup.faults);
            desk = new BenchDesk(engine, bench, key, person, setup.told, WallClock.utc(), setup.folder);
        } else {
            wiring = Wiring.bench(build, setup.options, new KeyGuard(key, engine, engine));
            desk = new BenchDesk(engine, bench, key, null, setup.told, WallClock.utc(), setup.folder);
        }
    }

    /**
     * Serves the page until the program is told to end.
     *
     * @param fromNetwork whether a browser on another machine may hold the bench key, too
     * @return exit status
     * @throws InputException where the board or the port cannot be opened
     */
    static int run(Setup setup, PageSettings settings, boolean fromNetwork, PrintStream out) {
        BenchPage page = new BenchPage(setup, out);
        try (PageServer server = page.serve(setup, settings, fromNetwork)) {
            out.println("page: " + server.address() + "#/bench");
            Throwable broken = new BenchLoop(page.desk::close, page).run(page.wiring, null);
            if (broken != null) {
                LOG.error("the bench has ended by a defect; the pump was left running", broken);
                return Main.DEFECT;
            }
            return 0;
        }
    }

    /** Without its page this bench is of no use: a port that is taken ends it in good order. */
    private PageServer serve(Setup setup, PageSettings settings, boolean fromNetwork) {
        BenchRoutes routes = new BenchRoutes(desk, setup.simulated(), fromNetwork);
        PageServer server = new PageServer(
                settings,
                PageFacts.bench(setup.build, "bench, " + setup.told),
                wiring.ring(),
                PageParts.bench(
                        setup.build,
                        setup.options.buildOption.name(),
                        Path.of(RecordingsCommand.DEFAULT_FOLDER),
                        routes,
                        setup.simulated()));
        try {
            server.start();
            return server;
        } catch (InputException e) {
            server.close();
            wiring.endWatchdogs();
            wiring.close();
            throw e;
        }
    }

    @Override
    public boolean look(boolean ending) {
        desk.look();
        BenchDesk.Kept last = desk.kept().stream().findFirst().orElse(null);
        if (last != shown) {
            shown = last;
            tell(last);
        }
        return ending && !desk.busy();
    }

    private void tell(BenchDesk.Kept kept) {
        Result result = kept.result();
        out.println(result.procedure().title() + ": " + result.outcome().word().toUpperCase(Locale.ROOT)
                + (result.sentence().isEmpty() ? "" : ": " + result.sentence()));
        out.println(kept.problem() == null ? "written: " + kept.file() : "not written: " + kept.problem());
    }

    @Override
    public Throwable defect() {
        return desk.defect();
    }
}
