package linehold.simulator.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;
import linehold.simulator.output.WholeFile;
import linehold.simulator.run.OpenLoop;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code linehold plant}: the circuit alone under a given trace, without a controller. */
@Command(
        name = "plant",
        mixinStandardHelpOptions = true,
        description = {
            "Runs the hydraulic circuit alone under a trace, without a controller: range D, relay delays, no bounce.",
            "The trace is a CSV file with the columns time_s, shaft_rpm, coil, low_band, high_clutch, oil_c, bus_v_open;"
                    + " numbers are linear between rows, the 0/1 columns hold until the next row."
        })
public final class PlantCommand implements Callable<Integer> {
    private static final char BYTE_ORDER_MARK = '\uFEFF';
    private static final double SHORTEST_EVERY_S = 1e-6;

    @Option(names = "--trace", required = true, paramLabel = "T.csv", description = "The trace to run.")
    private Path trace;

    @Option(names = "--out", required = true, paramLabel = "P.csv", description = "Where the result goes.")
    private Path out;

    @Mixin
    private BuildOption buildOption = new BuildOption();

    @Option(
            names = "--every",
            paramLabel = "TIME",
            defaultValue = "1ms",
            description = "Time between two rows of the result (default: ${DEFAULT-VALUE}).")
    private String every;

    @Option(
            names = "--initial-pressure",
            paramLabel = "PRESSURE",
            defaultValue = "0Pa",
            description = "Line pressure at first (default: ${DEFAULT-VALUE}).")
    private String initialPressure;

    @Option(
            names = "--initial-pump-speed",
            paramLabel = "SPEED",
            defaultValue = "0rad/s",
            description = "Electric pump speed at first (default: ${DEFAULT-VALUE}).")
    private String initialPumpSpeed;

    @Option(
            names = "--initial-low-band",
            paramLabel = "VOLUME",
            defaultValue = "0m3",
            description = "Oil in the low band at first (default: ${DEFAULT-VALUE}).")
    private String initialLowBand;

    @Option(
            names = "--initial-high-clutch",
            paramLabel = "VOLUME",
            defaultValue = "0m3",
            description = "Oil in the high clutch at first (default: ${DEFAULT-VALUE}).")
    private String initialHighClutch;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        Build build = buildOption.load();
        OpenLoop.Initial initial = new OpenLoop.Initial(
                atLeast0("--initial-pressure", initialPressure, Quantity.PRESSURE),
                atLeast0("--initial-pump-speed", initialPumpSpeed, Quantity.ROTATION),
                atLeast0("--initial-low-band", initialLowBand, Quantity.VOLUME),
                atLeast0("--initial-high-clutch", initialHighClutch, Quantity.VOLUME));
        OpenLoop loop = new OpenLoop(build, initial, everyS());
        try (BufferedReader in = openTrace()) {
            WholeFile.write(out, writer -> loop.run(trace.toString(), in, writer));
        } catch (CharacterCodingException e) {
            throw new InputException(trace + ": found bytes that are no UTF-8, expected a text file in UTF-8", e);
        } catch (IOException e) {
            throw new InputException(
                    trace + ": found a file that cannot be read ("
                            + e.getClass().getSimpleName() + "), expected a CSV trace",
                    e);
        }
        spec.commandLine().getOut().println("written: " + out);
        spec.commandLine().getOut().flush();
        return 0;
    }

    private BufferedReader openTrace() throws IOException {
        try {
            BufferedReader in = Files.newBufferedReader(trace);
            in.mark(1);
            if (in.read() != BYTE_ORDER_MARK) {
                in.reset();
            }
            return in;
        } catch (NoSuchFileException e) {
            throw new InputException(trace + ": found no such file, expected a CSV trace", e);
        }
    }

    private double everyS() {
        double seconds = quantity("--every", every, Quantity.TIME);
        if (seconds < SHORTEST_EVERY_S) {
            throw new InputException("--every: found '" + every + "', expected a time of at least 0.001 ms");
        }
        return seconds;
    }

    private static double atLeast0(String option, String typed, Quantity quantity) {
        double value = quantity(option, typed, quantity);
        if (value < 0) {
            throw new InputException(
                    option + ": found '" + typed + "', expected " + quantity.noun() + " of at least 0");
        }
        return value;
    }

    private static double quantity(String option, String typed, Quantity quantity) {
        return Quantities.parse(typed.strip(), quantity)
                .orElseThrow(() -> new InputException(option + ": found '" + typed + "', expected " + quantity.noun()
                        + " with its unit (" + quantity.labels() + ")"));
    }
}
