package linehold.simulator.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.Claims;
import linehold.simulator.faults.FaultCampaign;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.Phase;
import linehold.simulator.output.WholeFile;
import linehold.simulator.report.FaultsHtml;
import linehold.simulator.report.FaultsJson;
import linehold.simulator.report.FaultsTable;
import linehold.simulator.report.Progress;
import linehold.simulator.run.RunCsv;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code linehold faults}: what does every single fault do, at every moment of a drive? */
@Command(
        name = "faults",
        mixinStandardHelpOptions = true,
        description = {
            "Tries every fault in every phase of driving, at the coldest and the hottest oil of a build, alone and",
            "beside the silent faults. docs/faults.md lists faults and phases.",
            "Exit status: 0 every fault that the build claims to cover is covered, 1 one slips or goes unnoticed,"
                    + " 2 bad input."
        })
public final class FaultsCommand implements Callable<Integer> {
    @Mixin
    private BuildOption buildOption = new BuildOption();

    @Option(
            names = "--out",
            paramLabel = "FOLDER",
            defaultValue = "out",
            description = "Where faults.json and faults.html go (default: ${DEFAULT-VALUE}).")
    private Path out;

    @Option(
            names = "--units",
            converter = UnitSystemConverter.class,
            description = "metric or us; without it, as the build file says.")
    private UnitSystem units;

    @Option(names = "--only", paramLabel = "FAULT", split = ",", description = "Only these faults.")
    private List<String> only = new ArrayList<>();

    @Option(names = "--phase", paramLabel = "PHASE", split = ",", description = "Only these phases of driving.")
    private List<String> phaseNames = new ArrayList<>();

    @Option(
            names = "--run",
            paramLabel = "FAULT@PHASE@OIL",
            description =
                    "Only this one run, told in full; OIL is cold, hot or a temperature: 'hose-leak@creeping@hot'.")
    private String run;

    @Option(names = "--csv", paramLabel = "FILE", description = "With --run: write it tick by tick as a CSV file.")
    private Path csv;

    @Option(
            names = "--seed",
            defaultValue = "1",
            description = "Seed of the sensors' noise (default: ${DEFAULT-VALUE}).")
    private long seed;

    @Override
    public Integer call() {
        Build build = buildOption.load();
        BuildWarnings.show(build);
        build = build.withUnits(units == null ? build.units() : units);
        if (csv != null && run == null) {
            throw new InputException(
                    "--csv: found no --run, expected the one run to write, such as" + " --run hose-leak@creeping@hot");
        }
        return run == null ? campaign(build) : one(build);
    }

    private int campaign(Build build) {
        List<FaultKind> kinds = only.isEmpty()
                ? List.of(FaultKind.values())
                : only.stream()
                        .map(key -> Claims.kind(key, "--only: "))
                        .distinct()
                        .toList();
        List<Phase> phases = phaseNames.isEmpty()
                ? List.of(Phase.values())
                : phaseNames.stream()
                        .map(key -> Claims.phase(key, "--phase: "))
                        .distinct()
                        .toList();
        WholeFile.makeFolder(out);
        FaultCampaign faults = new FaultCampaign(build, seed, kinds, phases);
        Campaign campaign;
        boolean terminal = Ansi.AUTO.enabled();
        try (Progress progress = Progress.onTerminal(terminal, "trying faults", faults.steps())) {
            campaign = faults.run(progress::step);
        }
        Path json = out.resolve("faults.json");
        Path report = out.resolve("faults.html");
        FaultsJson.write(campaign, json);
        FaultsHtml.write(campaign, build.units(), report);
        System.out.print(FaultsTable.of(campaign, build.units(), terminal));
        System.out.println("written: " + json + ", " + report);
        return campaign.covered() ? 0 : 1;
    }

    private int one(Build build) {
        String[] parts = run.split("@", -1);
        if (parts.length != 3) {
            throw new InputException(
                    "--run: found '" + run + "', expected FAULT@PHASE@OIL such as" + " hose-leak@creeping@hot");
        }
        FaultKind kind = Claims.kind(parts[0], "--run: ");
        Phase phase = Claims.phase(parts[1], "--run: ");
        FaultCampaign faults = new FaultCampaign(build, seed, List.of(kind), List.of(phase));
        double oilC = oilC(parts[2], faults);
        FaultRun result =
                csv == null ? faults.run(kind, phase, oilC, moment -> true) : written(faults, kind, phase, oilC);
        System.out.printf(
                Locale.ROOT,
                "%s, %s, from %.3f s of the drive %s: %s%n",
                kind.title(),
                phase.title(),
                result.fault().startS(),
                result.drive(),
                result.outcome().title());
        System.out.println("effect: " + result.effect());
        System.out.println("reaction: " + result.reaction());
        if (csv != null) {
            System.out.println("written: " + csv);
        }
        return !result.claimed() || result.outcome().covered() ? 0 : 1;
    }

    private FaultRun written(FaultCampaign faults, FaultKind kind, Phase phase, double oilC) {
        FaultRun[] result = new FaultRun[1];
        RunCsv.write(csv, rows -> result[0] = faults.run(kind, phase, oilC, rows));
        return result[0];
    }

    private static double oilC(String typed, FaultCampaign faults) {
        List<Double> corners = faults.cornersC();
        return switch (typed) {
            case "cold" -> corners.get(0);
            case "hot" -> corners.get(corners.size() - 1);
            default ->
                Quantities.parse(typed, Quantity.TEMPERATURE)
                        .orElseThrow(() -> new InputException(
                                "--run: found '" + typed + "', expected cold, hot or a temperature such as '60 °C'"));
        };
    }
}
