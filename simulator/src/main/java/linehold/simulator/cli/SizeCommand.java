package linehold.simulator.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import linehold.simulator.build.Build;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.output.WholeFile;
import linehold.simulator.report.EarlierSheet;
import linehold.simulator.report.SizeHtml;
import linehold.simulator.report.SizeJson;
import linehold.simulator.report.SizeTable;
import linehold.simulator.size.SizeSheet;
import linehold.simulator.size.Sizer;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code linehold size}: are the parts around the pump large enough? */
@Command(
        name = "size",
        mixinStandardHelpOptions = true,
        description = {
            "Sizes the parts of a build by textbook formulas: flow, hose, suction, motor, cable, fuse, relay, clutches,"
                    + " heat, torque path and shaft fit. docs/size.md has formulas, limits and sources.",
            "Exit status: 0 all ok or tight, 1 something not enough, 2 bad input."
        })
public final class SizeCommand implements Callable<Integer> {
    @Mixin
    private BuildOption buildOption = new BuildOption();

    @Option(
            names = "--out",
            paramLabel = "FOLDER",
            defaultValue = "out",
            description = "Where size.json and size.html go (default: ${DEFAULT-VALUE}).")
    private Path out;

    @Option(
            names = "--units",
            converter = UnitSystemConverter.class,
            description = "metric or us; without it, as the build file says.")
    private UnitSystem units;

    @Option(
            names = "--against",
            paramLabel = "FILE",
            description = "The size.json of an earlier run, to compare with line by line.")
    private Path against;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        Build build = buildOption.load();
        BuildWarnings.show(build);
        // Read before anything is written: the earlier sheet may be the file that this run replaces.
        EarlierSheet earlier = against == null ? null : SizeJson.read(against);
        SizeSheet sheet = Sizer.sheet(build);
        UnitSystem shown = units == null ? build.units() : units;
        WholeFile.makeFolder(out);
        Path json = out.resolve("size.json");
        Path report = out.resolve("size.html");
        SizeJson.write(sheet, json);
        SizeHtml.write(sheet, earlier, shown, report);
        spec.commandLine().getOut().print(SizeTable.of(sheet, earlier, shown, Ansi.AUTO.enabled()));
        spec.commandLine().getOut().println("written: " + json + ", " + report);
        spec.commandLine().getOut().flush();
        return sheet.enough() ? 0 : 1;
    }
}
