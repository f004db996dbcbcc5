package linehold.simulator.cli;

import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.InputException;
import picocli.CommandLine.Option;

/** The build that a command is about. */
public final class BuildOption {
    @Option(
            names = "--build",
            paramLabel = "BUILD",
            defaultValue = "demonstration",
            description = "A build file, or the name of one that ships (default: ${DEFAULT-VALUE}).")
    private String name;

    /** As it was typed: a file, or the name of a build that ships. */
    public String name() {
        return name;
    }

    /** @throws InputException where it cannot be read */
    public Build load() {
        return BuildFile.loadNamed(name);
    }
}
