package linehold.simulator.prove;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import linehold.controller.safety.TroubleCode;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.Gear;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.drive.Drive;
import linehold.simulator.prove.Loss.Criterion;
import linehold.simulator.run.CloseUpRecorder;
import linehold.simulator.run.ClosedLoop;
import linehold.simulator.run.Moment;
import linehold.simulator.run.OverviewRecorder;
import linehold.simulator.run.Parallel;
import linehold.simulator.run.RunTotals;
import linehold.simulator.run.TickListener;

/** Proves a build over drives at oil temperatures: every run closed-loop with the real controller, then judged. */
public final class Prover {
    /** Less air than this is rounding at the instant the line fills again, m³. */
    private static final double WORTH_TELLING_M3 = 1e-8;

    private final Build build;
    private final long seed;
    private final Cause cause;

    /** @param seed of all sensor noise; the same seed gives the same verdict to the last digit */
    public Prover(Build build, long seed) {
        this.build = build;
        this.seed = seed;
        cause = new Cause(build);
    }

    /** One drive at one oil temperature, °C; a drive that tells its own oil temperature keeps it. */
    public record Case(Drive drive, double oilC) {}

    /** Every drive at every oil temperature, drive by drive. */
    public static List<Case> grid(List<? extends Drive> drives, List<Double> oilC) {
        return drives.stream()
                .flatMap(drive -> oilC.stream().map(temperature -> new Case(drive, temperature)))
                .toList();
    }

    /**
     * @param done called after each run, from any thread
     * @return runs in the order of the cases; the weakest run of each drive has its close-up
     */
    public Verdict prove(List<Case> cases, Runnable done) {
        List<Judged> judged = judgeAll(cases, done);
        Map<Drive, Judged> weakestOf = new IdentityHashMap<>();
        for (int i = 0; i < cases.size(); i++) {
            weakestOf.merge(cases.get(i).drive, judged.get(i), Judged::weaker);
        }
        List<Callable<RunVerdict>> again = new ArrayList<>();
        for (int i = 0; i < cases.size(); i++) {
            Drive drive = cases.get(i).drive;
            Judged run = judged.get(i);
            again.add(run == weakestOf.get(drive) ? () -> withCloseUp(drive, run) : () -> run.verdict);
        }
        return new Verdict(build, Parallel.all(again, () -> {}), weakest(judged));
    }

    /** The same without close-ups, which cost runs of their own. */
    public Verdict proveWithoutCloseUps(List<Case> cases) {
        List<Judged> judged = judgeAll(cases, () -> {});
        return new Verdict(build, judged.stream().map(Judged::verdict).toList(), weakest(judged));
    }

    private List<Judged> judgeAll(List<Case> cases, Runnable done) {
        List<Callable<Judged>> tasks = cases.stream()
                .<Callable<Judged>>map(one -> () -> judge(one.drive, one.oilC))
                .toList();
        return Parallel.all(tasks, done);
    }

    private String weakest(List<Judged> judged) {
        RunVerdict weakest = judged.stream().reduce(Judged::weaker).orElseThrow().verdict;
        return weakest.drive() + " at " + new Display(build.units()).temperature(weakest.oilC()) + ": "
                + weakest.weakest();
    }

    /** One run with what ranks it. */
    private record Judged(RunVerdict verdict, double momentS, int severity, double ratio) {
        private static final Comparator<Judged> WEAKEST_FIRST =
                Comparator.comparingInt(Judged::severity).thenComparingDouble(Judged::ratio);

        /** The weaker of two, the first where they are equal. */
        Judged weaker(Judged other) {
            return WEAKEST_FIRST.compare(other, this) < 0 ? other : this;
        }
    }

    /** Runs one drive at one temperature while a listener of the caller's looks on. */
    public RunTotals run(Drive drive, double oilC, TickListener listener) {
        // The noise of a run depends on what is run, not on when or beside what.
        long runSeed = seed * 0x9E3779B97F4A7C15L + drive.name().hashCode() * 31L + Double.hashCode(oilC);
        return new ClosedLoop(build, oilC, runSeed).run(drive, listener);
    }

    /** One drive at one temperature, told only by how far it stays from its limits: for runs by the thousand. */
    public Reserve reserve(Drive drive, double oilC) {
        Accountant account = new Accountant(build);
        Moment[] last = new Moment[1];
        run(drive, oilC, moment -> {
            last[0] = moment;
            return account.tick(moment);
        });
        account.end(last[0]);
        boolean pressureLost = account.firstLoss.containsKey(Criterion.PRESSURE_LOST);
        double lowestPa = pressureLost ? account.pressureMinPa : account.settledMinPa;
        return new Reserve(
                lowestPa / build.limits().holdPressurePa(),
                account.marginMin / build.limits().safetyFactor(),
                build.limits().engagementLimitS(oilC) / account.longestEngagementS,
                account.firstLoss.keySet().stream().findFirst().orElse(null));
    }

    private RunVerdict withCloseUp(Drive drive, Judged run) {
        CloseUpRecorder recorder = new CloseUpRecorder(run.momentS);
        run(drive, run.verdict.oilC(), recorder);
        return run.verdict.withCloseUp(recorder.closeUp());
    }

    /**
     * One run judged while another listener looks on.
     *
     * @param weakestAtS the weakest moment, s
     * @param told the verdict in words of each system of units
     */
    public record Watched(double weakestAtS, Map<UnitSystem, RunVerdict> told) {}

    /** Judges one drive at one temperature. @param beside sees every tick too, and may end the run by an exception */
    public Watched judge(Drive drive, double oilC, TickListener beside) {
        Accountant account = new Accountant(build);
        OverviewRecorder overview = new OverviewRecorder(account.periodS());
        RunTotals totals = run(drive, oilC, account, overview, beside);
        Map<UnitSystem, RunVerdict> told = new EnumMap<>(UnitSystem.class);
        double weakestAtS = Double.NaN;
        for (UnitSystem units : UnitSystem.values()) {
            Judged run = new Prover(build.withUnits(units), seed).judged(drive, oilC, account, overview, totals);
            weakestAtS = run.momentS;
            told.put(units, run.verdict);
        }
        return new Watched(weakestAtS, told);
    }

    private Judged judge(Drive drive, double oilC) {
        Accountant account = new Accountant(build);
        OverviewRecorder overview = new OverviewRecorder(account.periodS());
        RunTotals totals = run(drive, oilC, account, overview, moment -> true);
        return judged(drive, oilC, account, overview, totals);
    }

    private RunTotals run(
            Drive drive, double oilC, Accountant account, OverviewRecorder overview, TickListener beside) {
        Moment[] last = new Moment[1];
        RunTotals totals = run(drive, oilC, moment -> {
            last[0] = moment;
            account.tick(moment);
            overview.tick(moment);
            return beside.tick(moment);
        });
        account.end(last[0]);
        return totals;
    }

    private Judged judged(Drive drive, double oilC, Accountant account, OverviewRecorder overview, RunTotals totals) {
        double engagementLimitS = build.limits().engagementLimitS(oilC);
        double refusedS = account.refusedTicks * account.periodS();
        List<Loss> losses = new ArrayList<>();
        account.firstLoss.forEach((criterion, at) -> {
            Snapshot told = told(criterion, at, account);
            double value = value(criterion, account, refusedS);
            losses.add(new Loss(criterion, at.timeS(), cause.extent(criterion, told, value) + "; " + cause.why(told)));
        });
        Weakest weakest = weakest(account, losses, refusedS);
        RunVerdict verdict = new RunVerdict(
                drive.name(),
                drive.source(),
                oilC,
                losses,
                totals.durationS(),
                account.primedAtS,
                account.pressureMinPa,
                time(account.pressureMin),
                gear(account.pressureMin),
                account.settledMinPa,
                time(account.settledMin),
                gear(account.settledMin),
                account.marginMin,
                time(account.marginMinAt),
                gear(account.marginMinAt),
                account.belowHoldTicks * account.periodS(),
                account.longestEngagementS,
                engagementLimitS,
                refusedS,
                totals.relayMoves(),
                totals.durationS() > 0 ? totals.relayMoves() * 3600 / totals.durationS() : 0,
                totals.durationS() > 0 ? totals.contactClosedS() / totals.durationS() : 0,
                totals.pumpEnergyJ(),
                account.handOvers,
                totals.volume().airDrawnM3(),
                codes(account.codes),
                totals.repairs(),
                warnings(totals),
                weakest.sentence,
                overview.overview(),
                null);
        return new Judged(
                verdict,
                weakest.momentS,
                losses.isEmpty()
                        ? Criterion.values().length
                        : losses.get(0).criterion().ordinal(),
                weakest.ratio);
    }

    private record Weakest(String sentence, double momentS, double ratio) {}

    /** The moment closest to (or furthest beyond) a limit; a broken rule comes before any that holds. */
    private Weakest weakest(Accountant account, List<Loss> losses, double refusedS) {
        boolean pressureLost = account.firstLoss.containsKey(Criterion.PRESSURE_LOST);
        double lowestPa = pressureLost ? account.pressureMinPa : account.settledMinPa;
        double pressureRatio = lowestPa / build.limits().holdPressurePa();
        double marginRatio = account.marginMin / build.limits().safetyFactor();
        Criterion criterion = !losses.isEmpty()
                ? losses.get(0).criterion()
                : marginRatio < pressureRatio ? Criterion.MARGIN_LOST : Criterion.PRESSURE_LOST;
        Snapshot at = losses.isEmpty()
                ? (criterion == Criterion.MARGIN_LOST ? account.marginMinAt : account.settledMin)
                : told(criterion, account.firstLoss.get(criterion), account);
        if (at == null) {
            return new Weakest("no apply element was ever engaged", 0, Double.POSITIVE_INFINITY);
        }
        double ratio = criterion == Criterion.MARGIN_LOST ? marginRatio : pressureRatio;
        double value = criterion == Criterion.PRESSURE_LOST ? lowestPa : value(criterion, account, refusedS);
        String sentence = cause.what(criterion, at, value) + ": " + cause.why(at);
        return new Weakest(sentence, at.timeS(), ratio);
    }

    /** The snapshot that tells most about a loss: of a minimum the lowest point, else where it was first broken. */
    private static Snapshot told(Criterion criterion, Snapshot first, Accountant account) {
        return switch (criterion) {
            case PRESSURE_LOST -> account.pressureMin;
            case MARGIN_LOST -> account.marginMinAt;
            case ENGAGEMENT_LATE -> account.longestEngagement;
            case NEVER_PRIMED, DRIVE_REFUSED -> first;
        };
    }

    private static double value(Criterion criterion, Accountant account, double refusedS) {
        return switch (criterion) {
            case PRESSURE_LOST -> account.pressureMinPa;
            case MARGIN_LOST -> account.marginMin;
            case ENGAGEMENT_LATE -> account.longestEngagementS;
            case DRIVE_REFUSED -> refusedS;
            case NEVER_PRIMED -> Double.NaN;
        };
    }

    private static List<String> warnings(RunTotals totals) {
        List<String> warnings = new ArrayList<>();
        if (totals.oilExtrapolated()) {
            warnings.add("the oil's viscosity is extrapolated beyond the range of the Walther equation");
        }
        if (totals.volume().airDrawnM3() > WORTH_TELLING_M3) {
            warnings.add("the line ran dry and drew air; what air in the oil does afterwards is not modelled");
        }
        if (totals.repairs().endedByGap()) {
            warnings.add("a gap in the log ended the evidence early");
        }
        return warnings;
    }

    private static List<String> codes(long bits) {
        return Arrays.stream(TroubleCode.values())
                .filter(code -> (bits & code.bit()) != 0)
                .map(TroubleCode::number)
                .sorted()
                .toList();
    }

    private static double time(Snapshot snapshot) {
        return snapshot == null ? Double.NaN : snapshot.timeS();
    }

    private static Gear gear(Snapshot snapshot) {
        return snapshot == null ? null : snapshot.gear();
    }
}
