package linehold.simulator.faults;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import linehold.controller.DrivePermission;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.InputException;
import linehold.simulator.drive.Drive;
import linehold.simulator.drive.RowDrive;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.run.ClosedLoop;
import linehold.simulator.run.Parallel;
import linehold.simulator.run.TickListener;

/**
 * Tries every fault in every phase of driving at the coldest and the hottest oil of a build, alone and beside the silent
 * faults, each run closed-loop with the real controller. Runs are independent of each other: their order and results do
 * not depend on the number of cores.
 */
public final class FaultCampaign {
    /** Faults that show nothing by themselves, until a second one comes. */
    public static final List<FaultKind> SILENT = List.of(
            FaultKind.STANDBY_RELAY_WELDED,
            FaultKind.READBACK_BROKEN,
            FaultKind.CURRENT_SENSOR_DEAD,
            FaultKind.SENDER_STUCK);

    /** A driver who is refused drive for longer than this at one stand gives up, s (assumed). */
    private static final double PATIENCE_S = 10;

    private final Build build;
    private final long seed;
    private final List<FaultKind> kinds;
    private final List<Phase> phases;
    private final List<Double> cornersC;
    private final Phases places;
    private final Claims claims;
    private final FaultSentences sentences;

    /**
     * @param seed of all sensor noise; the same seed gives the same campaign to the last digit
     * @param kinds faults to try, in the order of the result; those of parts that the build lacks are left out
     * @param phases phases to try them in, likewise
     * @throws InputException where the build's claims name what there is not
     */
    public FaultCampaign(Build build, long seed, Collection<FaultKind> kinds, Collection<Phase> phases) {
        this.build = build;
        this.seed = seed;
        this.kinds = kinds.stream().filter(kind -> kind.isIn(build)).toList();
        this.phases = List.copyOf(phases);
        List<Double> oilC = build.limits().oilTemperaturesC();
        cornersC = DoubleStream.of(oilC.get(0), oilC.get(oilC.size() - 1))
                .distinct()
                .boxed()
                .toList();
        places = new Phases(build);
        claims = new Claims(build);
        sentences = new FaultSentences(build);
    }

    /** One run to make. */
    private record Case(FaultKind kind, FaultKind latent, Phase phase, double oilC) {}

    /** A drive at a temperature. */
    private record Place(int drive, double oilC) {}

    /** How often {@code done} will be called. */
    public long steps() {
        long grid = (long) phases.size() * cornersC.size();
        return healthyPlaces().size()
                + kinds.size() * grid
                + pairs().size()
                + (long) latentKinds().size();
    }

    /**
     * Runs it all.
     *
     * @param done called after each run, from any thread
     * @throws InputException where the build does not even hold with nothing broken
     */
    public Campaign run(Runnable done) {
        Map<Place, HealthyRun> healthy = healthy(done);
        List<FaultRun> singles = runs(cases(Collections.singletonList(null)), healthy, done);
        List<FaultRun> pairs = runs(pairs(), healthy, done);
        List<LatentFinding> selfTest = Parallel.all(
                latentKinds().stream()
                        .<Callable<LatentFinding>>map(kind -> () -> selfTest(kind))
                        .toList(),
                done);
        return new Campaign(
                build,
                singles,
                worse(singles, pairs),
                pairs.size(),
                selfTest,
                DiagnosticTechnique.coverage(build, singles));
    }

    /**
     * One run while a listener of the caller's looks on.
     *
     * @return what became of it
     */
    public FaultRun run(FaultKind kind, Phase phase, double oilC, TickListener listener) {
        HealthyRun healthy = healthy(new Place(places.driveOf(phase), oilC));
        return run(new Case(kind, null, phase, oilC), healthy, listener);
    }

    /** The coldest and the hottest oil temperature of the build, °C. */
    public List<Double> cornersC() {
        return cornersC;
    }

    private List<Place> healthyPlaces() {
        return phases.stream()
                .flatMap(phase -> cornersC.stream().map(oilC -> new Place(places.driveOf(phase), oilC)))
                .distinct()
                .toList();
    }

    private Map<Place, HealthyRun> healthy(Runnable done) {
        List<Place> all = healthyPlaces();
        List<HealthyRun> runs = Parallel.all(
                all.stream()
                        .<Callable<HealthyRun>>map(place -> () -> healthy(place))
                        .toList(),
                done);
        Map<Place, HealthyRun> byPlace = new LinkedHashMap<>();
        for (int i = 0; i < all.size(); i++) {
            byPlace.put(all.get(i), runs.get(i));
        }
        return byPlace;
    }

    private HealthyRun healthy(Place place) {
        RowDrive drive = places.drives().get(place.drive);
        HealthyRun run = new HealthyRun(drive, place.oilC, build.calibration().get(Key.CONTROL_PERIOD));
        FaultJudge judge = new FaultJudge(build, List.of(), 0, 0);
        loop(drive, place.oilC, List.of()).run(drive, moment -> run.tick(moment) & judge.tick(moment));
        if (judge.outcome() != Outcome.HARMLESS) {
            throw new InputException(build.name() + ": the healthy car does not come through the drive "
                    + drive.name() + " at " + new Display(build.units()).temperature(place.oilC) + " ("
                    + sentences.effect(judge, 0) + "; " + sentences.reaction(judge, 0)
                    + "), expected a build that holds with nothing broken: see linehold prove");
        }
        return run;
    }

    /** @param latents what lies beside each fault; null for nothing */
    private List<Case> cases(List<FaultKind> latents) {
        List<Case> cases = new ArrayList<>();
        for (FaultKind kind : kinds) {
            for (Phase phase : phases) {
                for (double oilC : cornersC) {
                    for (FaultKind latent : latents) {
                        if (latent != kind) {
                            cases.add(new Case(kind, latent, phase, oilC));
                        }
                    }
                }
            }
        }
        return cases;
    }

    private List<Case> pairs() {
        return cases(SILENT.stream().filter(kind -> kind.isIn(build)).toList());
    }

    private List<FaultRun> runs(List<Case> cases, Map<Place, HealthyRun> healthy, Runnable done) {
        return Parallel.all(
                cases.stream()
                        .<Callable<FaultRun>>map(one -> () ->
                                run(one, healthy.get(new Place(places.driveOf(one.phase), one.oilC)), moment -> true))
                        .toList(),
                done);
    }

    private FaultRun run(Case one, HealthyRun healthy, TickListener listener) {
        double startS = places.startS(one.phase, healthy)
                .orElseThrow(() -> new InputException(build.name() + ": the healthy car is never "
                        + one.phase.title() + " in the drive " + healthy.drive.name()
                        + ", expected a build whose drives have every phase"));
        Fault fault = Fault.usual(one.kind, startS);
        List<Fault> faults = one.latent == null ? List.of(fault) : List.of(Fault.usual(one.latent, 0), fault);
        FaultJudge judge = new FaultJudge(build, healthy.permissions, healthy.codes, startS);
        loop(healthy.drive, one.oilC, faults).run(healthy.drive, moment -> judge.tick(moment) & listener.tick(moment));
        return new FaultRun(
                fault,
                one.latent,
                one.phase,
                healthy.drive.name(),
                one.oilC,
                claims.covers(one.kind, one.phase),
                judge.outcome(),
                judge.noticedS - startS,
                FaultSentences.codes(judge.codes),
                judge.state,
                judge.permission,
                judge.lowestPressurePa,
                judge.lowestMargin,
                judge.slipS - startS,
                judge.highestPressurePa,
                sentences.effect(judge, startS),
                sentences.reaction(judge, startS));
    }

    private ClosedLoop loop(Drive drive, double oilC, List<Fault> faults) {
        // The noise is that of the healthy run: what differs is the fault's doing.
        long runSeed = seed * 0x9E3779B97F4A7C15L + drive.name().hashCode() * 31L + Double.hashCode(oilC);
        return new ClosedLoop(build, oilC, runSeed, faults).withPatience(PATIENCE_S);
    }

    /** The pairs that came to harm, and to more of it than the fault alone. */
    private static List<FaultRun> worse(List<FaultRun> singles, List<FaultRun> pairs) {
        record Where(FaultKind kind, Phase phase, double oilC) {
            static Where of(FaultRun run) {
                return new Where(run.fault().kind(), run.phase(), run.oilC());
            }
        }
        Map<Where, FaultRun> alone = singles.stream().collect(Collectors.toMap(Where::of, Function.identity()));
        return pairs.stream()
                .filter(pair -> !pair.outcome().covered()
                        && pair.outcome().compareTo(alone.get(Where.of(pair)).outcome()) > 0)
                .toList();
    }

    // ---- the self-test at key-on -------------------------------------------------------------------------------

    /** Faults that can lie there before the key is turned: those that stay. */
    private List<FaultKind> latentKinds() {
        return kinds.stream()
                .filter(kind -> Double.isInfinite(kind.usualDurationS()))
                .toList();
    }

    /** Found where it raises a code before drive is first granted, at every corner. */
    private LatentFinding selfTest(FaultKind kind) {
        boolean found = true;
        TreeSet<String> codes = new TreeSet<>();
        for (double oilC : cornersC) {
            long[] bits = new long[1];
            RowDrive drive = places.drives().get(0);
            loop(drive, oilC, List.of(Fault.usual(kind, 0))).run(drive, moment -> {
                bits[0] |= moment.outputs.activeCodes;
                // A drive that is not granted until the car would move has been refused.
                return moment.outputs.permission == DrivePermission.WITHHELD && moment.shaftRadPerS == 0;
            });
            found &= bits[0] != 0;
            codes.addAll(FaultSentences.codes(bits[0]));
        }
        return new LatentFinding(kind, found, List.copyOf(codes));
    }
}
