package linehold.rig.app;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import linehold.simulator.build.InputException;
import linehold.simulator.cli.CertifyCommand;
import linehold.simulator.cli.DrivesCommand;
import linehold.simulator.cli.FaultsCommand;
import linehold.simulator.cli.InitCommand;
import linehold.simulator.cli.PlantCommand;
import linehold.simulator.cli.ProveCommand;
import linehold.simulator.cli.SizeCommand;
import linehold.simulator.cli.WindowCommand;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The one program: names its commands and turns what goes wrong into a sentence and an exit status. */
@Command(
        name = "linehold",
        mixinStandardHelpOptions = true,
        version = Main.RELEASE,
        description = "Keeps an automatic transmission's clutches under pressure when an electric car stands still.",
        subcommands = {
            InitCommand.class,
            ProveCommand.class,
            FaultsCommand.class,
            WindowCommand.class,
            CertifyCommand.class,
            SizeCommand.class,
            DrivesCommand.class,
            PlantCommand.class,
            RecordingsCommand.class,
            BoardCommand.class,
            RigCommand.class,
            PageCommand.class,
            BenchCommand.class
        })
public final class Main implements Runnable {
    /** Name and version of this program. */
    static final String RELEASE = "linehold 0.1.0";
    /** Exit status where what a person gave us cannot be used. */
    static final int BAD_INPUT = 2;
    /** Exit status where the program itself is wrong. */
    static final int DEFECT = 3;

    private static final Logger LOG = LoggerFactory.getLogger(Main.class);

    @Spec
    private CommandSpec spec;

    @Override
    public void run() {
        throw new ParameterException(spec.commandLine(), "name a command; 'linehold --help' lists them");
    }

    public static void main(String[] args) {
        // Degrees and dots are printed; an older JDK would follow the locale and lose them.
        System.setOut(utf8(FileDescriptor.out));
        System.setErr(utf8(FileDescriptor.err));
        System.exit(commandLine().execute(args));
    }

    private static PrintStream utf8(FileDescriptor descriptor) {
        return new PrintStream(new FileOutputStream(descriptor), true, StandardCharsets.UTF_8);
    }

    static CommandLine commandLine() {
        CommandLine commandLine = new CommandLine(new Main()).setCaseInsensitiveEnumValuesAllowed(true);
        commandLine.setParameterExceptionHandler((exception, args) -> {
            System.err.println("linehold: " + exception.getMessage());
            return BAD_INPUT;
        });
        commandLine.setExecutionExceptionHandler((exception, line, result) -> {
            if (exception instanceof InputException) {
                System.err.println("linehold: " + exception.getMessage());
                return BAD_INPUT;
            }
            LOG.error("linehold has gone wrong itself; this is a defect to report", exception);
            return DEFECT;
        });
        return commandLine;
    }
}
