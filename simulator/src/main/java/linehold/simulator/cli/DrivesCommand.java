package linehold.simulator.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import linehold.simulator.build.Build;
import linehold.simulator.build.Quantity;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.DriveCsv;
import linehold.simulator.drive.Drives;
import linehold.simulator.drive.RowDrive;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code linehold drives}: which drives come with the program; writes one as a CSV log. */
@Command(
        name = "drives",
        mixinStandardHelpOptions = true,
        description = "Lists the built-in drives as the build's car drives them, or writes one as a CSV log.")
public final class DrivesCommand implements Callable<Integer> {
    private static final double METRES_PER_KILOMETRE = 1000;
    private static final double METRES_PER_MILE = 1609.344;

    @Mixin
    private BuildOption buildOption = new BuildOption();

    @Option(
            names = "--units",
            converter = UnitSystemConverter.class,
            description = "metric or us; without it, as the build file says.")
    private UnitSystem units;

    @Option(
            names = "--export",
            arity = "2",
            paramLabel = "DRIVE FILE",
            hideParamSyntax = true,
            description = "Write a drive as a CSV log in linehold's own format, which reads back as the same drive.")
    private List<String> export;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        Build build = buildOption.load();
        PrintWriter out = spec.commandLine().getOut();
        if (export != null) {
            Path file = Path.of(export.get(1));
            long rows = DriveCsv.write(Drives.resolve(export.get(0), build), file);
            out.println("written: " + file + ", " + rows + " rows");
            return 0;
        }
        boolean us = (units == null ? build.units() : units) == UnitSystem.US;
        double metres = us ? METRES_PER_MILE : METRES_PER_KILOMETRE;
        String row = "%-20s %9s %9s %9s  %s%n";
        out.printf(Locale.ROOT, row, "drive", "duration", "distance", "top speed", "source");
        out.printf(Locale.ROOT, row, "", "s", us ? "mi" : "km", "rpm", "");
        for (RowDrive drive : BuiltInDrives.all(build)) {
            out.printf(
                    Locale.ROOT,
                    "%-20s %9.1f %9.3f %9.0f  %s%n",
                    drive.name(),
                    drive.durationS(),
                    drive.distanceM() / metres,
                    Quantity.ROTATION.unit("rpm").orElseThrow().fromSi(drive.topShaftSpeedRadPerS()),
                    drive.source());
        }
        return 0;
    }
}
