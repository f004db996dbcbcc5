package linehold.simulator.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import linehold.simulator.build.InputException;
import linehold.simulator.build.StartingFile;
import linehold.simulator.build.UnitSystem;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code linehold init mycar.yaml}: a commented build file to start a new car from. */
@Command(name = "init", description = "Write a commented build file to start a new car from.")
public final class InitCommand implements Callable<Integer> {
    @Parameters(paramLabel = "FILE", description = "The file to write; it must not exist yet.")
    private Path file;

    @Option(
            names = "--units",
            paramLabel = "SYSTEM",
            defaultValue = "metric",
            converter = UnitSystemConverter.class,
            description = "metric (bar, N·m, °C) or us (psi, lbf·ft, °F); the file remembers it.")
    private UnitSystem units;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        write(StartingFile.text(buildName(), units));
        spec.commandLine()
                .getOut()
                .println("Wrote " + file + ": replace its numbers by those of your car, then prove it.");
        spec.commandLine().getOut().flush();
        return 0;
    }

    private String buildName() {
        Path last = file.getFileName();
        String name = last == null
                ? ""
                : last.toString().replaceFirst("\\.ya?ml$", "").strip();
        return name.isEmpty() || name.length() > 100 || name.chars().anyMatch(Character::isISOControl)
                ? "my car"
                : name;
    }

    /** Whole or not at all: a reader never sees half a file, and an existing one is never touched. */
    private void write(String text) {
        if (Files.exists(file)) {
            throw taken(null);
        }
        Path part = file.resolveSibling("." + file.getFileName() + ".part");
        try {
            try {
                Files.write(part, text.getBytes(StandardCharsets.UTF_8));
                Files.move(part, file);
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (FileAlreadyExistsException e) {
            throw taken(e);
        } catch (IOException e) {
            throw new InputException(
                    file + ": found no way to write there (" + e.getClass().getSimpleName()
                            + "), expected an existing directory that may be written",
                    e);
        }
    }

    private InputException taken(Exception cause) {
        return new InputException(file + ": found an existing file, expected a name that is still free", cause);
    }
}
