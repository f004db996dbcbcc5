package linehold.rig.app;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.concurrent.Callable;
import linehold.rig.board.Board;
import linehold.rig.board.BoardChecks;
import linehold.rig.board.BoardFile;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.InputException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code linehold board board.yaml}: a commented board file to start from, or a check of one, on any machine. */
@Command(
        name = "board",
        mixinStandardHelpOptions = true,
        description = "Writes a commented board file to start from, or checks one.")
final class BoardCommand implements Callable<Integer> {
    @Parameters(paramLabel = "FILE", description = "The file to write, which must not exist yet, or to check.")
    private Path file;

    @Option(names = "--check", description = "Check an existing file, against the build; no hardware is needed.")
    private boolean check;

    @Option(
            names = "--build",
            paramLabel = "BUILD",
            defaultValue = "demonstration",
            description = "The car that the board is to serve (default: ${DEFAULT-VALUE}).")
    private String buildName;

    @Override
    public Integer call() {
        if (check) {
            Board board = BoardFile.load(file);
            BoardChecks.check(
                    file.toString(), board, BuildFile.loadNamed(buildName).calibration());
            System.out.println(file + ": board '" + board.name() + "' can serve the build " + buildName + ".");
        } else {
            write();
            System.out.println("Wrote " + file + ": replace its lines and channels by those of your wiring.");
        }
        return 0;
    }

    private void write() {
        try {
            Files.writeString(file, BoardFile.example(), StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        } catch (FileAlreadyExistsException e) {
            throw new InputException(file + ": found an existing file, expected a name that is still free", e);
        } catch (IOException e) {
            throw new InputException(
                    file + ": found no way to write there (" + e.getClass().getSimpleName()
                            + "), expected an existing directory that may be written",
                    e);
        }
    }
}
