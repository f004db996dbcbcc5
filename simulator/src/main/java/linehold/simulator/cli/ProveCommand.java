package linehold.simulator.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.Drive;
import linehold.simulator.drive.DriveReader;
import linehold.simulator.drive.DriveSample;
import linehold.simulator.drive.Drives;
import linehold.simulator.drive.LogDrive;
import linehold.simulator.drive.OilIgnored;
import linehold.simulator.output.WholeFile;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.Prover.Case;
import linehold.simulator.prove.Verdict;
import linehold.simulator.report.Progress;
import linehold.simulator.report.VerdictHtml;
import linehold.simulator.report.VerdictJson;
import linehold.simulator.report.VerdictTable;
import linehold.simulator.run.RunCsv;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code linehold prove}: does this build hold line pressure on these drives? */
@Command(
        name = "prove",
        mixinStandardHelpOptions = true,
        description = {
            "Proves that a build holds line pressure over drives, at every oil temperature of the build.",
            "Exit status: 0 held, 1 lost, 2 bad input."
        })
public final class ProveCommand implements Callable<Integer> {
    @Parameters(
            paramLabel = "DRIVE",
            arity = "0..*",
            description = "Built-in drives by name, or CSV logs; without any, the demonstration drives.")
    private List<String> driveNames = new ArrayList<>();

    @Mixin
    private BuildOption buildOption = new BuildOption();

    @Option(
            names = "--oil",
            paramLabel = "TEMPERATURE",
            split = ",",
            description =
                    "Oil temperatures instead of the build's own, such as '60 °C,120 °C'; or 'logged': as the logs"
                            + " say.")
    private List<String> oil = new ArrayList<>();

    @Option(
            names = "--mapping",
            paramLabel = "FILE",
            description = "Which column of the logs is what (default: LOG.map.yaml beside LOG.csv, where it exists).")
    private Path mapping;

    @Option(
            names = "--out",
            paramLabel = "FOLDER",
            defaultValue = "out",
            description = "Where verdict.json and report.html go (default: ${DEFAULT-VALUE}).")
    private Path out;

    @Option(
            names = "--units",
            converter = UnitSystemConverter.class,
            description = "metric or us; without it, as the build file says.")
    private UnitSystem units;

    @Option(names = "--csv", description = "Write each run tick by tick as a CSV file, too.")
    private boolean csv;

    @Option(
            names = "--seed",
            defaultValue = "1",
            description = "Seed of the sensors' noise (default: ${DEFAULT-VALUE}).")
    private long seed;

    @Mixin
    private OtherWindow window;

    @Override
    public Integer call() {
        Build build = buildOption.load();
        BuildWarnings.show(build);
        build = window.of(build.withUnits(units == null ? build.units() : units));
        List<Case> cases = cases(build, drives(build));
        WholeFile.makeFolder(out);

        Prover prover = new Prover(build, seed);
        Verdict verdict;
        boolean terminal = Ansi.AUTO.enabled();
        try (Progress progress = Progress.onTerminal(terminal, "proving", cases.size())) {
            verdict = prover.prove(cases, progress::step);
        }
        if (csv) {
            writeRuns(prover, cases);
        }
        Path json = out.resolve("verdict.json");
        Path report = out.resolve("report.html");
        VerdictJson.write(verdict, json);
        VerdictHtml.write(verdict, build.units(), report);
        System.out.print(VerdictTable.of(verdict, build.units(), terminal));
        System.out.println("written: " + json + ", " + report);
        return verdict.held() ? 0 : 1;
    }

    private List<Drive> drives(Build build) {
        if (driveNames.isEmpty()) {
            return List.copyOf(BuiltInDrives.all(build));
        }
        Map<String, Drive> byName = new LinkedHashMap<>();
        for (String given : driveNames) {
            Drive drive = mapping == null ? Drives.resolve(given, build) : LogDrive.of(Path.of(given), mapping, build);
            if (byName.put(drive.name(), drive) != null) {
                throw new InputException(
                        "found two drives called '" + drive.name() + "', expected each to have a name of its own");
            }
        }
        return List.copyOf(byName.values());
    }

    private List<Case> cases(Build build, List<Drive> drives) {
        if (oil.equals(List.of("logged"))) {
            return drives.stream()
                    .map(drive -> new Case(drive, loggedOilC(drive)))
                    .toList();
        }
        List<Double> temperatures = oil.isEmpty()
                ? build.limits().oilTemperaturesC()
                : oil.stream().map(ProveCommand::temperature).toList();
        return Prover.grid(drives.stream().map(OilIgnored::new).toList(), temperatures);
    }

    private static double loggedOilC(Drive drive) {
        DriveSample first = new DriveSample();
        try (DriveReader reader = drive.open()) {
            reader.read(first);
        }
        if (Double.isNaN(first.oilTemperatureC)) {
            throw new InputException(
                    drive.source() + ": found no oil temperature in its first row, expected one for --oil logged");
        }
        return first.oilTemperatureC;
    }

    private static double temperature(String typed) {
        return Quantities.parse(typed.strip(), Quantity.TEMPERATURE)
                .orElseThrow(() -> new InputException(
                        "--oil: found '" + typed + "', expected temperatures such as '60 °C,120 °C', or logged"));
    }

    private void writeRuns(Prover prover, List<Case> cases) {
        Path folder = out.resolve("runs");
        WholeFile.makeFolder(folder);
        for (Case one : cases) {
            Path file = folder.resolve(one.drive().name() + "_" + Math.round(one.oilC()) + "C.csv");
            RunCsv.write(file, rows -> prover.run(one.drive(), one.oilC(), rows));
        }
    }
}
