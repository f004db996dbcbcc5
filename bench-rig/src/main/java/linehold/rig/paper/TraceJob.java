package linehold.rig.paper;

import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.function.LongSupplier;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.drive.Drive;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.run.Moment;

/** One run on its way from being asked for to being kept. Ends by itself when nobody has asked for it any more. */
final class TraceJob implements Runnable, AutoCloseable {
    /** That of the command: the page's verdict is the command's to the last digit. */
    private static final long SEED = 1;
    /** A page asks several times a second; a tab in the background once in a second. */
    private static final long WANTED_NS = 3_000_000_000L;
    /** So many ticks between two looks at the clock. */
    private static final int LOOK_TICKS = 1 << 12;

    private final Drive drive;
    private final double oilC;
    private final Build build;
    private final LongSupplier clockNs;
    private final Trace trace;
    private int ticks;
    private volatile long askedNs;
    private volatile double reachedS;
    private volatile Told told;
    private volatile InputException problem;
    private volatile boolean closed;

    /**
     * The verdict on a run.
     *
     * @param weakestAtS the weakest moment, s
     * @param lowestPa lowest line pressure once an element was engaged, Pa; null where none was
     * @param lowestAtS when, s; null likewise
     * @param words in each system of units
     */
    record Told(
            boolean held, double weakestAtS, Double lowestPa, Double lowestAtS, Map<UnitSystem, List<String>> words) {}

    TraceJob(Drive drive, double oilC, Build build, LongSupplier clockNs) {
        this.drive = drive;
        this.oilC = oilC;
        this.build = build;
        this.clockNs = clockNs;
        trace = new Trace(build.calibration());
        asked();
    }

    /** Somebody still waits for it. */
    void asked() {
        askedNs = clockNs.getAsLong();
    }

    @Override
    public void run() {
        try {
            Prover.Watched run = new Prover(build, SEED).judge(drive, oilC, this::tick);
            trace.end();
            told = told(run);
        } catch (CancellationException e) {
            close();
        } catch (InputException e) {
            problem = e;
        } catch (RuntimeException e) {
            // Without this the page would wait for ever.
            problem = new InputException("this run cannot be computed, by a defect: " + e, e);
        }
    }

    private boolean tick(Moment moment) {
        if (++ticks % LOOK_TICKS == 0) {
            reachedS = moment.timeS;
            if (closed || Thread.currentThread().isInterrupted() || clockNs.getAsLong() - askedNs > WANTED_NS) {
                throw new CancellationException();
            }
        }
        return trace.tick(moment);
    }

    private static Told told(Prover.Watched run) {
        RunVerdict verdict = run.told().get(UnitSystem.METRIC);
        RunVerdict.LowPoint low = verdict.lowPoint();
        return new Told(
                verdict.held(),
                run.weakestAtS(),
                low.known() ? low.pressurePa() : null,
                low.known() ? low.atS() : null,
                Map.of(
                        UnitSystem.METRIC, words(verdict),
                        UnitSystem.US, words(run.told().get(UnitSystem.US))));
    }

    /** What was lost, or the weakest moment where nothing was. */
    private static List<String> words(RunVerdict verdict) {
        return verdict.held()
                ? List.of(verdict.weakest())
                : verdict.losses().stream()
                        .map(loss -> loss.criterion().title() + ": " + loss.cause())
                        .toList();
    }

    /** How much of the drive is computed, s. */
    double reachedS() {
        return reachedS;
    }

    /** Null until the run is over. */
    Told told() {
        return told;
    }

    /** Why there is none; null where there is no such reason. */
    InputException problem() {
        return problem;
    }

    Trace trace() {
        return trace;
    }

    Build build() {
        return build;
    }

    /** It has ended without an answer, because nobody waited. */
    boolean closed() {
        return closed;
    }

    @Override
    public void close() {
        closed = true;
        trace.close();
    }
}
