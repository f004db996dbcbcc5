package linehold.simulator.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.Drive;
import linehold.simulator.drive.Drives;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.Verdict;
import linehold.simulator.report.Progress;
import linehold.simulator.report.VerdictHtml;
import linehold.simulator.report.VerdictJson;
import linehold.simulator.report.VerdictTable;
import linehold.simulator.run.RunCsv;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
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

    @Option(
            names = "--build",
            paramLabel = "BUILD",
            defaultValue = "demonstration",
            description = "A build file, or the name of one that ships (default: ${DEFAULT-VALUE}).")
    private String buildName;

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

    @Override
    public Integer call() {
        Build build = BuildFile.loadNamed(buildName);
        UnitSystem shown = units == null ? build.units() : units;
        build = build.withUnits(shown);
        List<Drive> drives = drives(build);
        List<Double> temperatures = temperatures(build);
        prepare(out);

        Prover prover = new Prover(build, seed);
        Verdict verdict;
        try (Progress progress =
                Progress.onTerminal(Ansi.AUTO.enabled(), "proving", (long) drives.size() * temperatures.size())) {
            verdict = prover.prove(drives, temperatures, progress::step);
        }
        if (csv) {
            writeRuns(build, prover, drives, temperatures);
        }
        Path json = out.resolve("verdict.json");
        Path report = out.resolve("report.html");
        VerdictJson.write(verdict, json);
        VerdictHtml.write(verdict, shown, report);
        System.out.print(VerdictTable.of(verdict, shown, Ansi.AUTO.enabled()));
        System.out.println("written: " + json + ", " + report);
        return verdict.held() ? 0 : 1;
    }

    private List<Drive> drives(Build build) {
        if (driveNames.isEmpty()) {
            return List.copyOf(BuiltInDrives.all(build));
        }
        return driveNames.stream().map(name -> Drives.resolve(name, build)).toList();
    }

    private List<Double> temperatures(Build build) {
        return oil.isEmpty()
                ? build.limits().oilTemperaturesC()
                : oil.stream().map(ProveCommand::temperature).toList();
    }

    private static double temperature(String typed) {
        return Quantities.parse(typed.strip(), Quantity.TEMPERATURE)
                .orElseThrow(() -> new InputException(
                        "--oil: found '" + typed + "', expected temperatures such as '60 °C,120 °C'"));
    }

    private void writeRuns(Build build, Prover prover, List<Drive> drives, List<Double> temperatures) {
        Path folder = out.resolve("runs");
        prepare(folder);
        for (Drive drive : drives) {
            for (double oilC : temperatures) {
                Path file = folder.resolve(drive.name() + "_" + Math.round(oilC) + "C.csv");
                try (RunCsv rows = new RunCsv(file)) {
                    prover.run(drive, oilC, rows);
                }
            }
        }
    }

    private static void prepare(Path folder) {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw new InputException("--out: found '" + folder + "', expected a folder that can be written", e);
        }
    }
}
