package linehold.rig.paper;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.Drive;
import linehold.simulator.drive.OilIgnored;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.RunVerdict;

/** Drives with what the proof says of them, reckoned once, on a thread of its own. */
public final class DriveBook implements AutoCloseable {
    /** As the command has it: the page's verdict is the command's to the last digit. */
    private static final long SEED = 1;
    /** A long drive takes tens of megabytes; two are compared. */
    private static final int KEPT_TRACES = 2;

    private final Build build;
    private final Prover prover;
    private final Map<String, Drive> drives = new LinkedHashMap<>();
    private final Map<String, CompletableFuture<List<Judged>>> verdicts = new LinkedHashMap<>();
    private final Map<String, Trace> traces = new LinkedHashMap<>(KEPT_TRACES, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Trace> eldest) {
            return size() > KEPT_TRACES;
        }
    };
    private final ExecutorService worker = Executors.newSingleThreadExecutor(task -> {
        Thread thread = new Thread(task, "verdicts");
        thread.setDaemon(true);
        return thread;
    });

    /**
     * One oil temperature of a drive.
     *
     * @param lowestPa line pressure at the low point, Pa; null where no element was ever engaged
     * @param lowestAtS when, s; null likewise
     */
    public record Judged(
            double oilC, boolean held, List<String> losses, String weakest, Double lowestPa, Double lowestAtS) {}

    /** @param runs null while they are reckoned */
    public record Entry(String name, String source, List<Judged> runs) {}

    public DriveBook(Build build) {
        this.build = build;
        prover = new Prover(build, SEED);
        BuiltInDrives.all(build).forEach(drive -> drives.put(drive.name(), new OilIgnored(drive)));
    }

    public List<Double> oilC() {
        return build.limits().oilTemperaturesC();
    }

    /** Every drive; the first call starts the reckoning. */
    public synchronized List<Entry> entries() {
        return drives.values().stream()
                .map(drive -> {
                    CompletableFuture<List<Judged>> verdict = verdicts.computeIfAbsent(
                            drive.name(), name -> CompletableFuture.supplyAsync(() -> prove(drive), worker));
                    return new Entry(drive.name(), drive.source(), now(verdict));
                })
                .toList();
    }

    private static List<Judged> now(CompletableFuture<List<Judged>> verdict) {
        try {
            return verdict.getNow(null);
        } catch (CompletionException e) {
            throw e.getCause() instanceof RuntimeException cause ? cause : e;
        }
    }

    private List<Judged> prove(Drive drive) {
        return prover.prove(Prover.grid(List.of(drive), oilC()), () -> {}).runs().stream()
                .map(DriveBook::judged)
                .toList();
    }

    private static Judged judged(RunVerdict run) {
        RunVerdict.LowPoint low = run.lowPoint();
        boolean known = Double.isFinite(low.pressurePa()) && Double.isFinite(low.atS());
        return new Judged(
                run.oilC(),
                run.held(),
                run.losses().stream()
                        .map(loss -> loss.criterion().title() + ": " + loss.cause())
                        .toList(),
                run.weakest(),
                known ? low.pressurePa() : null,
                known ? low.atS() : null);
    }

    /** @throws InputException where there is no such drive, or the build is not proved at this oil temperature */
    public Trace trace(String name, double oilC) {
        Drive drive = drives.get(name);
        if (drive == null) {
            throw new InputException("drive: found no drive of this name, expected one of " + drives.keySet());
        }
        if (!oilC().contains(oilC)) {
            throw new InputException("oil: found " + oilC + " °C, expected one of " + oilC());
        }
        synchronized (traces) {
            // Under the lock: two viewers who ask for the same run wait for one reckoning of it.
            return traces.computeIfAbsent(name + "@" + oilC, key -> {
                Trace trace = new Trace();
                prover.run(drive, oilC, trace);
                return trace;
            });
        }
    }

    /** Ends the reckoning. */
    @Override
    public void close() {
        worker.shutdownNow();
    }
}
