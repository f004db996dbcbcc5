package linehold.rig.app;

import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import linehold.controller.switching.PumpState;
import linehold.rig.adapter.store.Recording;
import linehold.rig.adapter.store.RecordingSummary;
import linehold.rig.adapter.store.Recordings;
import linehold.simulator.build.InputException;
import linehold.simulator.report.Words;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code linehold recordings}: what rigs have recorded. */
@Command(
        name = "recordings",
        mixinStandardHelpOptions = true,
        description = "Lists, exports, replays and prunes what a rig has recorded.",
        subcommands = {
            RecordingsCommand.ListCommand.class,
            RecordingsCommand.ExportCommand.class,
            RecordingsCommand.ReplayCommand.class,
            RecordingsCommand.PruneCommand.class
        })
public final class RecordingsCommand implements Runnable {
    /** Where a rig records unless it is told otherwise. */
    static final String DEFAULT_FOLDER = "recordings";

    private static final double BYTES_PER_MB = 1e6;

    @Spec
    private CommandSpec spec;

    @Override
    public void run() {
        throw new ParameterException(spec.commandLine(), "recordings: name one of list, export, replay, prune");
    }

    /** How a recording ended. */
    static String word(RecordingSummary.End end) {
        return switch (end) {
            case RUNNING -> "running";
            case IN_ORDER -> "in order";
            case CUT -> "cut off";
        };
    }

    /** Where the recordings are. */
    static final class Folder {
        @Option(
                names = "--folder",
                paramLabel = "FOLDER",
                defaultValue = DEFAULT_FOLDER,
                description = "Where the recordings are (default: ${DEFAULT-VALUE}).")
        private Path path;

        Recordings recordings() {
            return new Recordings(path);
        }
    }

    /** {@code linehold recordings list}. */
    @Command(
            name = "list",
            mixinStandardHelpOptions = true,
            description = "One line for each recording, the oldest first. Times are UTC.")
    static final class ListCommand implements Callable<Integer> {
        private static final DateTimeFormatter START =
                DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm:ss", Locale.ROOT).withZone(ZoneOffset.UTC);
        private static final String ROW = "%6s  %-19s  %9s  %8s  %-8s  %-40s  %-17s  %s%n";

        @Mixin
        private Folder folder;

        @Override
        public Integer call() {
            Recordings recordings = folder.recordings();
            System.out.printf(Locale.ROOT, ROW, "id", "start", "length", "MB", "end", "pump", "codes", "rig");
            for (long id : recordings.ids()) {
                try {
                    print(recordings.summary(id));
                } catch (InputException e) {
                    System.out.printf(Locale.ROOT, "%6d  %s%n", id, e.getMessage());
                }
            }
            return 0;
        }

        private static void print(RecordingSummary summary) {
            System.out.printf(
                    Locale.ROOT,
                    ROW,
                    summary.id(),
                    START.format(summary.start()),
                    clock(summary.lengthNs()),
                    String.format(Locale.ROOT, "%.2f", summary.bytes() / BYTES_PER_MB),
                    word(summary.end()),
                    states(summary.states()),
                    summary.codes().isEmpty() ? "none" : String.join(" ", summary.codes()),
                    summary.rig()
                            + (summary.dropped() > 0
                                    ? "; its first " + summary.dropped() + " ticks are not kept"
                                    : ""));
        }

        private static String clock(long ns) {
            Duration length = Duration.ofNanos(ns);
            return String.format(
                    Locale.ROOT, "%d:%02d:%02d", length.toHours(), length.toMinutesPart(), length.toSecondsPart());
        }

        private static String states(Set<String> names) {
            return names.stream()
                    .map(PumpState::valueOf)
                    .sorted()
                    .map(Words::of)
                    .collect(Collectors.joining(" "));
        }
    }

    /** {@code linehold recordings export}. */
    @Command(
            name = "export",
            mixinStandardHelpOptions = true,
            description = {
                "Writes a recording as a CSV log that 'linehold prove' reads, or with --ticks every field of every tick.",
                "The log's motor speed is the controller's, without a sign: a car that rolled back is not seen to do so.",
                "Its bus voltage is the measured one, with the pump's own load on it: a little on the safe side."
            })
    static final class ExportCommand implements Callable<Integer> {
        @Mixin
        private Folder folder;

        @Parameters(arity = "0..1", paramLabel = "ID", description = "Number of the recording (default: the youngest).")
        private Long id;

        @Option(names = "--ticks", description = "Every field of every tick, named with its SI unit.")
        private boolean ticks;

        @Option(
                names = "--out",
                paramLabel = "FILE",
                description = "The CSV file (default: recording-ID.csv, with --ticks recording-ID-ticks.csv).")
        private Path out;

        @Override
        public Integer call() {
            Recordings recordings = folder.recordings();
            long number = id == null ? recordings.youngest() : id;
            Path file = out == null ? Path.of("recording-" + number + (ticks ? "-ticks" : "") + ".csv") : out;
            try (Recording recording = recordings.open(number)) {
                long rows = ticks ? RecordingCsv.writeTicks(recording, file) : RecordingCsv.writeDrive(recording, file);
                System.out.println("written: " + file + ", " + rows + " rows");
            }
            return 0;
        }
    }

    /** {@code linehold recordings replay}. */
    @Command(
            name = "replay",
            mixinStandardHelpOptions = true,
            description = {
                "Runs a recording through the controller once more: every output must come out bit for bit as recorded.",
                "Exit status: 0 identical, 1 not, 2 cannot be replayed."
            })
    static final class ReplayCommand implements Callable<Integer> {
        @Mixin
        private Folder folder;

        @Parameters(arity = "0..1", paramLabel = "ID", description = "Number of the recording (default: the youngest).")
        private Long id;

        @Override
        public Integer call() {
            Recordings recordings = folder.recordings();
            long number = id == null ? recordings.youngest() : id;
            Replay.Outcome outcome;
            try (Recording recording = recordings.open(number)) {
                System.out.println("recording " + number + ": " + recording.describe());
                outcome = Replay.of(recording);
            }
            System.out.println("bit-identical: " + outcome.ticks() + " ticks");
            if (outcome.difference() != null) {
                System.out.println("DIFFERS at " + outcome.difference());
            } else if (outcome.gap() > 0) {
                System.out.println("ENDS at tick " + outcome.ticks() + ": " + outcome.gap()
                        + " ticks were not recorded there, and what follows cannot be replayed without them");
            }
            return outcome.identical() ? 0 : 1;
        }
    }

    /** {@code linehold recordings prune}. */
    @Command(
            name = "prune",
            mixinStandardHelpOptions = true,
            description = "Deletes recordings, but never the one that is being written.")
    static final class PruneCommand implements Callable<Integer> {
        private static final long MOST_DAYS = 36_500;

        @Mixin
        private Folder folder;

        @Parameters(arity = "0..*", paramLabel = "ID", description = "Numbers of the recordings to delete.")
        private List<Long> ids = new ArrayList<>();

        @Option(
                names = "--older-than",
                paramLabel = "DAYS",
                description = "Those that began more than so many days ago.")
        private Long days;

        @Option(names = "--down-to", paramLabel = "MB", description = "The oldest ones, until the rest takes no more.")
        private Long megabytes;

        @Spec
        private CommandSpec spec;

        @Override
        public Integer call() {
            if (ids.isEmpty() && days == null && megabytes == null) {
                throw new ParameterException(spec.commandLine(), "prune: name ids, --older-than or --down-to");
            }
            if (days != null && (days < 0 || days > MOST_DAYS)) {
                throw new InputException("--older-than: found " + days + ", expected 0 to " + MOST_DAYS + " days");
            }
            if (megabytes != null && (megabytes < 0 || megabytes > Integer.MAX_VALUE)) {
                throw new InputException("--down-to: found " + megabytes + ", expected 0 MB or more");
            }
            Recordings recordings = folder.recordings();
            requireKnown(recordings);
            TreeSet<Long> deleted = new TreeSet<>(recordings.delete(ids::contains));
            if (days != null) {
                deleted.addAll(recordings.deleteOlderThan(Duration.ofDays(days)));
            }
            if (megabytes != null) {
                deleted.addAll(recordings.shrinkTo(Math.round(megabytes * BYTES_PER_MB)));
            }
            for (long id : ids) {
                if (!deleted.contains(id)) {
                    System.out.println("kept: " + id + ", it is being written");
                }
            }
            System.out.println("deleted: "
                    + (deleted.isEmpty()
                            ? "nothing"
                            : deleted.stream().map(String::valueOf).collect(Collectors.joining(", "))));
            return 0;
        }

        private void requireKnown(Recordings recordings) {
            List<Long> known = recordings.ids();
            for (long id : ids) {
                if (!known.contains(id)) {
                    throw new InputException("prune: found no recording " + id + ", expected one that 'list' shows");
                }
            }
        }
    }
}
