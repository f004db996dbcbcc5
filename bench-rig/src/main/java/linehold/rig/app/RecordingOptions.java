package linehold.rig.app;

import java.nio.file.Path;
import linehold.rig.adapter.store.RecordingLimits;
import linehold.simulator.build.InputException;
import picocli.CommandLine.Option;

/** What a rig keeps on its medium. */
final class RecordingOptions {
    private static final long BYTES_PER_MB = 1_000_000;
    private static final long MOST_MB = 1_000_000;

    @Option(
            names = "--record",
            paramLabel = "FOLDER",
            defaultValue = RecordingsCommand.DEFAULT_FOLDER,
            description = "Where recordings and stored trouble codes go (default: ${DEFAULT-VALUE}).")
    Path folder;

    @Option(
            names = "--record-limit",
            paramLabel = "MB",
            defaultValue = "1000",
            description = "All recordings together; the oldest are dropped (default: ${DEFAULT-VALUE}).")
    private long limitMb;

    @Option(
            names = "--no-record",
            description = "Keep nothing: no recording, and trouble codes are forgotten when the power goes.")
    boolean off;

    RecordingLimits limits() {
        if (limitMb < 1 || limitMb > MOST_MB) {
            throw new InputException("--record-limit: found " + limitMb + ", expected 1 to " + MOST_MB + " MB");
        }
        return new RecordingLimits(limitMb * BYTES_PER_MB);
    }
}
