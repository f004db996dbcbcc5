package linehold.simulator.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.Display;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.certificate.Certificate.Basis;
import linehold.simulator.certify.BuildBasis;
import linehold.simulator.certify.Certifier;
import linehold.simulator.drive.DriveCsv;
import linehold.simulator.drive.Drives;
import linehold.simulator.drive.Manoeuvres;
import linehold.simulator.drive.OilIgnored;
import linehold.simulator.output.WholeFile;
import linehold.simulator.report.Comparison;
import linehold.simulator.report.Progress;
import linehold.simulator.report.WindowHtml;
import linehold.simulator.report.WindowJson;
import linehold.simulator.report.WindowTable;
import linehold.simulator.window.ToleranceFinder;
import linehold.simulator.window.Watch;
import linehold.simulator.window.Window;
import linehold.simulator.window.WindowFinder;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code linehold window}: at which shaft speeds must the pumps hand over in this build? */
@Command(
        name = "window",
        mixinStandardHelpOptions = true,
        description = {
            "Finds the switch-over window of a build: switch-on and switch-off speed, what limits them, what they cost;"
                    + " where there is none, what would open one.",
            "Exit status: 0 a window exists, 1 none, 2 bad input."
        })
public final class WindowCommand implements Callable<Integer> {
    private static final double COLDEST_OIL_C = -60;
    private static final double HOTTEST_OIL_C = 200;
    private static final String HARDEST_STOP = "hardest-stop.csv";
    private static final int MOST_CARS = 100_000;
    /** Too many lines to read, or words about numbers that are compared themselves. */
    private static final Set<String> NOT_COMPARED = Set.of("maps", "why", "weakest", "no_window");

    private final List<String> written = new ArrayList<>();

    @Parameters(
            paramLabel = "DRIVE",
            arity = "0..*",
            description = "Built-in drives by name, or CSV logs, on which the window is proved and priced; without any,"
                    + " the demonstration drives.")
    private List<String> driveNames = new ArrayList<>();

    @Mixin
    private BuildOption buildOption = new BuildOption();

    @Option(
            names = "--oil",
            paramLabel = "TEMPERATURE",
            split = ",",
            description = "Oil temperatures instead of the build's own, such as '60 °C,120 °C'.")
    private List<String> oil = new ArrayList<>();

    @Option(
            names = "--out",
            paramLabel = "FOLDER",
            defaultValue = "out",
            description = "Where window.json, window.html and the hardest stop go (default: ${DEFAULT-VALUE}).")
    private Path out;

    @Option(
            names = "--units",
            converter = UnitSystemConverter.class,
            description = "metric or us; without it, as the build file says.")
    private UnitSystem units;

    @Option(
            names = "--against",
            paramLabel = "PREVIOUS.json",
            description = "A window.json of an earlier run: what has changed since, line by line.")
    private Path against;

    @Option(
            names = "--cars",
            paramLabel = "N",
            description =
                    "Draw this many cars within the spreads of the build file and tell how many hold, which car is"
                            + " the worst, and which spread matters most, such as 1000.")
    private Integer cars;

    @Option(
            names = "--seed",
            defaultValue = "1",
            description = "Seed of the cars and of their sensors' noise (default: ${DEFAULT-VALUE}).")
    private long seed;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        Build build = buildOption.load();
        BuildWarnings.show(build);
        build = build.withUnits(units == null ? build.units() : units);
        List<Double> temperatures = oil.isEmpty()
                ? build.limits().oilTemperaturesC()
                : oil.stream().map(WindowCommand::temperature).toList();
        List<OilIgnored> drives = drives(build);
        byte[] previous = against == null ? null : Comparison.read(against, "window");
        checkCars(build);
        WholeFile.makeFolder(out);

        Window window;
        try (Stages stages = new Stages(Ansi.AUTO.enabled())) {
            window = new WindowFinder(build, temperatures, drives, stages).find();
            if (cars != null && window.exists()) {
                window = window.with(new ToleranceFinder(window, cars, seed, stages).find());
            }
        }
        List<String> changes = previous == null
                ? null
                : Comparison.lines(previous, WindowJson.toBytes(window), build.units(), NOT_COMPARED);
        String certified = certified(build, temperatures);
        write(window, changes, certified);
        PrintWriter terminal = spec.commandLine().getOut();
        terminal.print(WindowTable.of(window, build.units(), changes));
        terminal.println(certified);
        terminal.println("written: " + String.join(", ", written));
        if (cars != null && !window.exists()) {
            terminal.println("no cars were drawn (--cars): there is no window for them.");
        }
        terminal.print(howToProve(window));
        terminal.flush();
        return window.exists() ? 0 : 1;
    }

    /** What holds in every drive and not only in the stops searched. */
    private static String certified(Build build, List<Double> temperatures) {
        Basis basis = BuildBasis.within(
                BuildBasis.of(build, false), Collections.min(temperatures), Collections.max(temperatures));
        Certifier certifier = new Certifier(build, basis, 0);
        double onRadPerS = certifier.lowestOnRadPerS(Manoeuvres.ICE_RATE_RAD_PER_S2);
        Display display = new Display(build.units());
        String fall = "for every drive whose shaft falls no faster than "
                + display.acceleration(Manoeuvres.ICE_RATE_RAD_PER_S2) + " (linehold certify)";
        return Double.isNaN(onRadPerS)
                ? "Certified: no switch-on speed " + fall + "."
                : "Certified: on below " + display.speed(onRadPerS) + " " + fall + ".";
    }

    private List<OilIgnored> drives(Build build) {
        return driveNames.stream()
                .map(name -> new OilIgnored(Drives.resolve(name, build)))
                .toList();
    }

    /** The commands that hold the pair and that lose it. */
    private String howToProve(Window window) {
        if (window.pair() == null) {
            return "";
        }
        Window.Pair pair = window.pair();
        String text = "to prove it:       " + prove(pair.onRadPerS(), pair.offRadPerS()) + "\n";
        if (window.losingStop() != null) {
            double margin = pair.marginRadPerS();
            text += "to see it lost:    " + prove(pair.onRadPerS() - margin, pair.offRadPerS() - margin) + " "
                    + out.resolve(HARDEST_STOP) + "\n";
        }
        return text;
    }

    private String prove(double onRadPerS, double offRadPerS) {
        Display display = new Display(UnitSystem.METRIC);
        String build = buildOption.name().equals(BuildFile.SHIPPED.get(0)) ? "" : " --build " + buildOption.name();
        return "./linehold prove" + build + " --switch-on '" + display.speed(onRadPerS) + "' --switch-off '"
                + display.speed(offRadPerS) + "' --speed-alone";
    }

    private void checkCars(Build build) {
        if (cars == null) {
            return;
        }
        if (cars < 1 || cars > MOST_CARS) {
            throw new InputException("--cars: found '" + cars + "', expected a whole number from 1 to " + MOST_CARS);
        }
        if (build.spreads().all().isEmpty()) {
            throw new InputException("--cars: found no spread in the build " + build.name()
                    + ", expected some, such as '24 cm3/rev ± 5 %'");
        }
    }

    private void write(Window window, List<String> changes, String certified) {
        WindowJson.write(window, place("window.json"));
        WindowHtml.write(window, window.build().units(), changes, certified, place("window.html"));
        if (window.losingStop() != null) {
            DriveCsv.write(window.losingStop(), place(HARDEST_STOP));
        } else {
            // One of an earlier run would be taken for this one's.
            WholeFile.remove(out.resolve(HARDEST_STOP));
        }
    }

    private Path place(String name) {
        Path file = out.resolve(name);
        written.add(file.toString());
        return file;
    }

    private static double temperature(String typed) {
        double oilC = Quantities.parse(typed.strip(), Quantity.TEMPERATURE)
                .orElseThrow(() -> new InputException(
                        "--oil: found '" + typed + "', expected temperatures such as '60 °C,120 °C'"));
        if (oilC < COLDEST_OIL_C || oilC > HOTTEST_OIL_C) {
            throw new InputException("--oil: found '" + typed + "', expected a temperature from -60 to 200 °C");
        }
        return oilC;
    }

    /** One bar after the other. */
    private static final class Stages implements Watch, AutoCloseable {
        private final boolean terminal;
        private Progress progress = Progress.silent();

        Stages(boolean terminal) {
            this.terminal = terminal;
        }

        @Override
        public Runnable begin(String stage, int steps) {
            progress.close();
            progress = Progress.onTerminal(terminal, stage, steps);
            return progress::step;
        }

        @Override
        public void close() {
            progress.close();
        }
    }
}
