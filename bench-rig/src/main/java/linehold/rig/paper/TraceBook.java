package linehold.rig.paper;

import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.LongSupplier;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.drive.Drive;

/** Whole runs to look into, computed in the background when they are asked for, and kept up to a size. */
public final class TraceBook implements AutoCloseable {
    private static final int MOST_UNDER_WAY = 8;
    /** On disk: three days, or any number of usual drives. What is looked at, and what lies over it, stay in any case. */
    private static final long KEPT_BYTES = 450L << 20;

    private static final int KEPT_ALWAYS = 2;

    private final DriveBook drives;
    private final BuildShelf builds;
    private final LongSupplier clockNs;
    private final Map<Asked, TraceJob> jobs = new LinkedHashMap<>(16, 0.75f, true);
    private final List<Worker> workers;
    private int turn;

    /** @param drive in the page's own build: the same object as long as the drive is the same */
    private record Asked(Drive drive, double oilC, String build, long calibration) {}

    /** The part that a chart shows. @param points at most so many places */
    public record Shown(double fromS, double toS, int points, UnitSystem units) {}

    /**
     * A run, or how far it is computed.
     *
     * @param reachedS so much of the drive is computed, s; null when all is there
     * @param run null until all is there
     */
    public record Answer(Double reachedS, Run run) {}

    /**
     * @param words what was lost; where all held, the weakest moment alone
     * @param weakestAtS that moment, s
     * @param lowestPa lowest line pressure once an element was engaged, Pa; null where none was
     */
    public record Run(
            String build,
            double holdPa,
            double switchOnRadPerS,
            double switchOffRadPerS,
            boolean held,
            List<String> words,
            double weakestAtS,
            Double lowestPa,
            Double lowestAtS,
            Trace.Part part) {}

    /**
     * @param workers compute runs, in turn; closed with this
     * @param clockNs monotonic time, to notice that nobody waits any more
     */
    public TraceBook(DriveBook drives, BuildShelf builds, List<Worker> workers, LongSupplier clockNs) {
        this.workers = List.copyOf(workers);
        this.drives = drives;
        this.builds = builds;
        this.clockNs = clockNs;
    }

    /**
     * A run as far as it is there; the first call begins it.
     *
     * @param buildName null or empty for the page's own
     * @throws InputException where there is no such drive, oil temperature or build, the drive cannot be read, or too many
     *     runs are under way
     */
    public synchronized Answer ask(String driveName, double oilC, String buildName, Shown shown) {
        if (!drives.oilC().contains(oilC)) {
            throw new InputException("oil: found " + oilC + " °C, expected one of " + drives.oilC());
        }
        Build build = builds.find(buildName);
        Asked asked = new Asked(
                drives.drive(driveName, builds.own()),
                oilC,
                build.sha256(),
                build.calibration().checksum());
        jobs.values().removeIf(TraceJob::closed);
        TraceJob job = jobs.get(asked);
        if (job == null) {
            job = begin(drives.drive(driveName, build), oilC, build);
            jobs.put(asked, job);
        }
        job.asked();
        if (job.problem() != null) {
            jobs.remove(asked).close();
            throw new InputException(job.problem().getMessage(), job.problem());
        }
        if (job.told() == null) {
            return new Answer(job.reachedS(), null);
        }
        dropOldest();
        return new Answer(null, run(job, shown));
    }

    private TraceJob begin(Drive drive, double oilC, Build build) {
        long underWay = jobs.values().stream()
                .filter(job -> job.told() == null && job.problem() == null)
                .count();
        if (underWay >= MOST_UNDER_WAY) {
            throw new InputException("too many runs are being computed, expected no more than " + MOST_UNDER_WAY
                    + " at once: ask again when they are done");
        }
        TraceJob job = new TraceJob(drive, oilC, build, clockNs);
        workers.get(turn++ % workers.size()).execute(job);
        return job;
    }

    /** The least lately asked go first. */
    private void dropOldest() {
        long bytes = jobs.values().stream().mapToLong(TraceBook::bytes).sum();
        int left = jobs.size();
        for (Iterator<TraceJob> eldest = jobs.values().iterator(); bytes > KEPT_BYTES && left > KEPT_ALWAYS; left--) {
            TraceJob job = eldest.next();
            if (job.told() != null) {
                bytes -= bytes(job);
                job.close();
                eldest.remove();
            }
        }
    }

    private static long bytes(TraceJob job) {
        return job.told() == null ? 0 : job.trace().bytes();
    }

    private static Run run(TraceJob job, Shown shown) {
        TraceJob.Told told = job.told();
        Calibration calibration = job.build().calibration();
        return new Run(
                job.build().name(),
                calibration.get(Key.HOLD_PRESSURE),
                calibration.get(Key.SWITCH_ON_SPEED),
                calibration.get(Key.SWITCH_OFF_SPEED),
                told.held(),
                told.words().get(shown.units),
                told.weakestAtS(),
                told.lowestPa(),
                told.lowestAtS(),
                job.trace().part(shown.fromS, shown.toS, shown.points));
    }

    /** Ends what is under way. */
    @Override
    public synchronized void close() {
        workers.forEach(Worker::close);
        jobs.values().forEach(TraceJob::close);
        jobs.clear();
    }
}
