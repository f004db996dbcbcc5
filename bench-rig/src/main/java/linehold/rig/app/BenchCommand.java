package linehold.rig.app;

import java.io.PrintStream;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import linehold.controller.calibration.Key;
import linehold.rig.adapter.simulated.SimulatedHand;
import linehold.rig.adapter.simulated.SimulatedPerson;
import linehold.rig.adapter.system.Keyboard;
import linehold.rig.adapter.system.WallClock;
import linehold.rig.adapter.web.PageSettings;
import linehold.rig.procedure.Bench;
import linehold.rig.procedure.Procedure;
import linehold.rig.procedure.ProcedureEngine;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.Claims;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code linehold bench}: leads through bench procedures, simulated or on a real board. */
@Command(
        name = "bench",
        mixinStandardHelpOptions = true,
        description = {
            "Leads through bench procedures, step by step, with limits and a stop key: docs/bench.md. With --page on the",
            "bench page instead of the terminal.",
            "Each writes a dated record. The first one that does not pass ends the list; however it ends, the pump is left"
                    + " running and drive withheld.",
            "Exit status: 0 all passed, 1 one failed or was stopped, 2 bad input, 3 a defect."
        })
public final class BenchCommand implements Callable<Integer> {
    private static final String ALL = "all";

    @Mixin
    private RigOptions options = new RigOptions();

    @Parameters(paramLabel = "PROCEDURE", arity = "0..*", description = "Procedures in their order, or 'all'.")
    private List<String> names = new ArrayList<>();

    @Option(names = "--list", description = "List the procedures.")
    private boolean list;

    @Option(
            names = "--out",
            paramLabel = "FOLDER",
            defaultValue = "out/bench",
            description = "Where records go (default: ${DEFAULT-VALUE}).")
    private Path out;

    @Option(
            names = "--cycles",
            paramLabel = "N",
            defaultValue = "100",
            description = "Cycles of endurance cycling, 1 to 100000 (default: ${DEFAULT-VALUE}).")
    private int cycles;

    @Option(
            names = "--yes",
            description = "Simulated only: a simulated person confirms and answers, and time passes as fast as it can.")
    private boolean yes;

    @Option(
            names = "--fault",
            paramLabel = "FAULT",
            description = "Simulated only: something is broken from the start, such as hose-leak.")
    private String faultName;

    @Option(names = "--page", description = "Choose procedures, and be led through them, on the bench page.")
    private boolean page;

    @Mixin
    private PageOptions pageOptions = new PageOptions();

    @Option(
            names = "--bench-from-network",
            description = {
                "With --listen: browsers on other machines may hold the bench key, and so move relays and pump, too.",
                "Without it they watch and stop."
            })
    private boolean fromNetwork;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        if (list) {
            list(System.out);
            return 0;
        }
        List<Fault> faults = checked();
        checkPage();
        Build build = options.buildOption.load();
        if (page) {
            return callPage(build, faults);
        }
        List<Procedure> procedures = procedures(build);
        Wiring.check(build, options);
        PrintStream terminalOut = System.out;
        BenchTerminal.showCautions(terminalOut);
        try (Keyboard keyboard = yes ? null : Keyboard.open()) {
            Bench bench = new Bench(build, cycles);
            ProcedureEngine engine = new ProcedureEngine(bench);
            SimulatedHand hand =
                    new SimulatedHand(engine::shaft, build.calibration().get(Key.CONTROL_PERIOD));
            boolean simulated = options.io == RigOptions.Io.SIMULATED;
            SimulatedPerson person = simulated ? new SimulatedPerson(engine, hand, yes) : null;
            BenchTerminal terminal =
                    new BenchTerminal(engine, bench, terminalOut, keyboard, person, Ansi.AUTO.enabled());
            if (yes) {
                terminalOut.println("Confirmed by --yes: nothing here is real.");
            } else if (!BenchTerminal.confirmCautions(keyboard, terminalOut)) {
                terminalOut.println("Not confirmed: nothing has been moved.");
                return 1;
            }
            terminal.listen();
            InstantSource wall = WallClock.utc();
            BenchSession session = new BenchSession(engine, bench, terminal, procedures, told(faults), wall, out);
            if (simulated) {
                return session.run(
                        Wiring.simulatedBench(build, options, hand, person, person, faults), yes ? person : null);
            }
            int status = session.run(Wiring.bench(build, options, engine), null);
            terminalOut.println("The pump has been left running: only opening its supply stops it.");
            return status;
        }
    }

    /** Cautions come twice at a real board: here before a line is opened, and on the page for whoever takes the key. */
    private int callPage(Build build, List<Fault> faults) {
        PageSettings settings = pageOptions.settings();
        Wiring.check(build, options);
        boolean real = options.io != RigOptions.Io.SIMULATED;
        if (real) {
            BenchTerminal.showCautions(System.out);
            if (!confirmed()) {
                System.out.println("Not confirmed: nothing has been moved.");
                return 1;
            }
        }
        int status = BenchPage.run(
                new BenchPage.Setup(build, options, faults, cycles, told(faults), out),
                settings,
                fromNetwork,
                System.out);
        if (real) {
            System.out.println("The pump has been left running: only opening its supply stops it.");
        }
        return status;
    }

    private static boolean confirmed() {
        try (Keyboard keyboard = Keyboard.open()) {
            return BenchTerminal.confirmCautions(keyboard, System.out);
        }
    }

    private void checkPage() {
        for (String name : List.of("--port", "--listen", "--bench-from-network")) {
            if (!page && spec.commandLine().getParseResult().hasMatchedOption(name)) {
                throw new InputException(name + ": found no --page, expected it beside it");
            }
        }
        if (page && yes) {
            throw new InputException("--yes: found --page, expected one of them: on the page a person confirms");
        }
        if (page && !names.isEmpty()) {
            throw new InputException("--page: found procedures beside it, expected none: they are chosen on the page");
        }
        if (fromNetwork && !pageOptions.listens()) {
            throw new InputException(
                    "--bench-from-network: found no --listen, expected an address at which other machines see the page");
        }
    }

    /** What is on the other side of the lines, as records have it. */
    private String told(List<Fault> faults) {
        String broken =
                faults.stream().map(fault -> ", fault " + fault.kind().key()).collect(Collectors.joining());
        return switch (options.io) {
            case SIMULATED -> String.format(Locale.ROOT, "simulated, seed %d%s", options.seed, broken);
            case PI -> "board " + options.board;
        };
    }

    private List<Fault> checked() {
        if (cycles < 1 || cycles > 100_000) {
            throw new InputException("--cycles: found " + cycles + ", expected 1 to 100000");
        }
        boolean real = options.io != RigOptions.Io.SIMULATED;
        if (real && yes) {
            throw new InputException(
                    "--yes: found --io pi, expected --io simulated: at a real bench a person confirms");
        }
        if (real && faultName != null) {
            throw new InputException("--fault: found --io pi, expected --io simulated: a real bench has its own");
        }
        if (faultName == null) {
            return List.of();
        }
        FaultKind kind = Claims.kind(faultName, "--fault: ");
        return List.of(new Fault(kind, 0, Double.POSITIVE_INFINITY, kind.usualSize()));
    }

    private List<Procedure> procedures(Build build) {
        if (names.isEmpty()) {
            throw new InputException("found no procedure, expected 'all' or some of " + known());
        }
        List<Procedure> chosen = new ArrayList<>();
        for (String name : names) {
            if (name.equals(ALL)) {
                Arrays.stream(Procedure.values())
                        .filter(procedure -> procedure.fits(build))
                        .forEach(chosen::add);
            } else {
                Procedure procedure = named(name);
                if (!procedure.fits(build)) {
                    throw new InputException(name + ": found a build without a pressure sender"
                            + " (sensors.pressure-sender-fitted), expected one that has it");
                }
                chosen.add(procedure);
            }
        }
        return chosen.stream().distinct().toList();
    }

    private static Procedure named(String name) {
        return Arrays.stream(Procedure.values())
                .filter(procedure -> procedure.key().equals(name))
                .findFirst()
                .orElseThrow(() -> new InputException("found '" + name + "', expected 'all' or some of " + known()));
    }

    private static String known() {
        return Arrays.stream(Procedure.values()).map(Procedure::key).collect(Collectors.joining(", "));
    }

    private static void list(PrintStream to) {
        for (Procedure procedure : Procedure.values()) {
            to.printf(Locale.ROOT, "%-11s %s%n", procedure.key(), procedure.purpose());
        }
    }
}
