package linehold.rig.paper;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.Drive;
import linehold.simulator.drive.Drives;
import linehold.simulator.prove.Prover;

/** Drives with what the proof says of them, reckoned once, on a thread of its own. */
public final class DriveBook implements AutoCloseable {
    /** As the command has it: the page's verdict is the command's to the last digit. */
    private static final long SEED = 1;

    private final Build build;
    private final Prover prover;
    private final Map<String, Proof> proofs = new LinkedHashMap<>();
    private final Set<Proof> begun = new HashSet<>();
    private final Worker worker;
    /** Its own, so that what is wrong with a log is told before other drives are proved. */
    private final Worker reader;

    /**
     * One oil temperature of a drive.
     *
     * @param lowestPa line pressure at the low point, Pa; null where no element was ever engaged
     * @param lowestAtS when, s; null likewise
     */
    public record Judged(
            double oilC, boolean held, List<String> losses, String weakest, Double lowestPa, Double lowestAtS) {}

    /**
     * A drive.
     *
     * @param name unique in the book
     * @param log whether it is an own log rather than a demonstration drive
     * @param runs null while they are reckoned, and where they cannot be
     * @param progress of the reckoning, 0 to 1
     * @param problem why there is no verdict; else null
     */
    public record Entry(String name, String source, boolean log, List<Judged> runs, double progress, String problem) {}

    public DriveBook(Build build) {
        this(build, BuiltInDrives.all(build), new Worker("verdicts"), new Worker("drive-reading"));
    }

    /**
     * @param demonstration drives that are always there
     * @param worker proves, in the background
     * @param reader reads each drive once before
     */
    public DriveBook(Build build, List<? extends Drive> demonstration, Worker worker, Worker reader) {
        this.build = build;
        this.worker = worker;
        this.reader = reader;
        prover = new Prover(build, SEED);
        demonstration.forEach(drive -> proofs.put(drive.name(), proof(drive)));
    }

    private Proof proof(Drive drive) {
        return new Proof(prover, oilC(), drive);
    }

    public Build build() {
        return build;
    }

    public List<Double> oilC() {
        return build.limits().oilTemperaturesC();
    }

    /** Adds an own log; it takes the place of one that is there. @param file its name in the book, with its ending */
    public void put(String file, Drive drive) {
        remove(file);
        synchronized (this) {
            proofs.put(file, proof(drive));
        }
    }

    /** Removes an own log, where there is one, and ends what is under way on it. */
    public void remove(String file) {
        Proof gone;
        synchronized (this) {
            gone = isLog(file) ? proofs.remove(file) : null;
            begun.remove(gone);
        }
        if (gone != null) {
            gone.stop();
        }
    }

    /** Logs go by their file's name, which has an ending; no demonstration drive's name has. */
    private static boolean isLog(String name) {
        return name.indexOf('.') >= 0;
    }

    /** Every drive; the first call starts the reckoning. */
    public synchronized List<Entry> entries() {
        List<Entry> entries = new ArrayList<>();
        proofs.forEach((name, proof) -> {
            if (begun.add(proof)) {
                reader.execute(() -> {
                    proof.read();
                    worker.execute(proof);
                });
            }
            entries.add(new Entry(
                    name, proof.drive().source(), isLog(name), proof.runs(), proof.progress(), proof.problem()));
        });
        return entries;
    }

    /** Ends what is under way. */
    @Override
    public synchronized void close() {
        proofs.values().forEach(Proof::stop);
        reader.close();
        worker.close();
    }

    /**
     * The drive of a name, in the car of any build.
     *
     * @return the same object each time where it is the page's own build, as long as the drive is the same
     * @throws InputException where there is no such drive
     */
    public synchronized Drive drive(String name, Build forBuild) {
        Proof proof = proofs.get(name);
        if (proof == null) {
            throw new InputException("drive: found no drive of this name, expected one of " + proofs.keySet());
        }
        if (forBuild == build) {
            return proof.drive();
        }
        return isLog(name) ? proof.drive().inCarOf(forBuild) : Drives.resolve(name, forBuild);
    }
}
