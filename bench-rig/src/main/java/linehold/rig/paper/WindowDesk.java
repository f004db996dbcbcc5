package linehold.rig.paper;

import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import linehold.simulator.build.Build;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.Verdict;
import linehold.simulator.window.Window;

/** Answers what a person asks about the window of one build. Each answer is computed once and kept. */
public final class WindowDesk implements AutoCloseable {
    /** The seed that {@code prove} takes where none is given. */
    private static final long SEED = 1;

    private static final int KEPT_VERDICTS = 16;

    private final Build build;
    private final Worker finder;
    private final Worker prover;
    private final Map<UnitSystem, WindowSearch> searches = new EnumMap<>(UnitSystem.class);
    private final Map<Asked, Verdict> verdicts = new LinkedHashMap<>() {
        @Override
        protected boolean removeEldestEntry(Map.Entry<Asked, Verdict> eldest) {
            return size() > KEPT_VERDICTS;
        }
    };

    private record Asked(long calibrationChecksum, UnitSystem units) {}

    /**
     * @param finder searches the window, in the background
     * @param prover proves windows while a person waits
     */
    public WindowDesk(Build build, Worker finder, Worker prover) {
        this.build = build;
        this.finder = finder;
        this.prover = prover;
    }

    public Build build() {
        return build;
    }

    /** The search for the window of the build with its sentences in these units; the first call begins it. */
    public synchronized WindowSearch search(UnitSystem units) {
        return searches.computeIfAbsent(units, system -> {
            WindowSearch search = new WindowSearch(build.withUnits(system));
            finder.execute(search);
            return search;
        });
    }

    /** The window where any search has found it, or null: numbers are the same in all units. */
    public synchronized Window anyWindow() {
        return searches.values().stream()
                .map(WindowSearch::window)
                .filter(Objects::nonNull)
                .findFirst()
                .orElse(null);
    }

    /**
     * Proves the demonstration drives with another window, as {@code prove} does.
     *
     * @param asker whose earlier question this one takes the place of; null where none is given up
     * @param units of the sentences
     * @throws linehold.simulator.build.InputException where the window is none
     * @throws Worker.BusyException as {@link Worker#answer}
     * @throws java.util.concurrent.CancellationException likewise
     */
    public Verdict verdict(String asker, TriedWindow tried, UnitSystem units) {
        Build changed = tried.of(build.withUnits(units));
        Asked asked = new Asked(changed.calibration().checksum(), units);
        Verdict known = known(asked);
        if (known != null) {
            return known;
        }
        return prover.answer(asker, () -> {
            Verdict since = known(asked);
            return since != null ? since : keep(asked, prove(changed));
        });
    }

    private Verdict known(Asked asked) {
        synchronized (verdicts) {
            return verdicts.get(asked);
        }
    }

    private Verdict keep(Asked asked, Verdict verdict) {
        synchronized (verdicts) {
            verdicts.put(asked, verdict);
        }
        return verdict;
    }

    private static Verdict prove(Build changed) {
        return new Prover(changed, SEED)
                .proveWithoutCloseUps(
                        Prover.grid(BuiltInDrives.all(changed), changed.limits().oilTemperaturesC()));
    }

    @Override
    public void close() {
        finder.close();
        prover.close();
    }
}
