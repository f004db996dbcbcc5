package linehold.rig.app;

import java.nio.file.Path;
import java.util.Locale;
import linehold.simulator.cli.BuildOption;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** What a rig is made of; the same for every command that has one. */
final class RigOptions {
    enum Io {
        SIMULATED,
        PI;

        /** As it is typed. */
        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    @Option(
            names = "--io",
            paramLabel = "simulated|pi",
            defaultValue = "simulated",
            description = "The car on paper, or a board's lines (default: ${DEFAULT-VALUE}).")
    Io io;

    @Option(
            names = "--board",
            paramLabel = "FILE",
            description = "Which line of the board is what; needed with --io pi.")
    Path board;

    @Option(
            names = "--watchdog",
            paramLabel = "DEVICE",
            description = "The kernel's watchdog, such as /dev/watchdog: resets the board when ticks stop.")
    Path watchdog;

    @Mixin
    final BuildOption buildOption = new BuildOption();

    @Option(
            names = "--oil",
            paramLabel = "TEMPERATURE",
            defaultValue = "60 °C",
            description = "Oil of the simulated car where its drive does not say (default: ${DEFAULT-VALUE}).")
    String oil;

    @Option(
            names = "--seed",
            defaultValue = "1",
            description = "Seed of the simulated sensors' noise (default: ${DEFAULT-VALUE}).")
    long seed;
}
