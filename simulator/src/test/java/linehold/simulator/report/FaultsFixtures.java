package linehold.simulator.report;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.DrivePermission;
import linehold.controller.switching.PumpState;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.Coverage;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.LatentFinding;
import linehold.simulator.faults.Outcome;
import linehold.simulator.faults.Phase;

/** Invented campaigns, no physics behind them. */
final class FaultsFixtures {
    static final String EFFECT = "the line <stood> & fell";

    private FaultsFixtures() {}

    /** A run at 120 °C. */
    static FaultRun run(FaultKind kind, Phase phase, Outcome outcome, boolean claimed) {
        return run(kind, null, phase, 120, outcome, claimed, 9e5);
    }

    static FaultRun run(
            FaultKind kind,
            FaultKind latent,
            Phase phase,
            double oilC,
            Outcome outcome,
            boolean claimed,
            double highestPa) {
        boolean noticed = outcome != Outcome.HARMLESS && outcome != Outcome.NEVER_NOTICED;
        return new FaultRun(
                Fault.usual(kind, 10),
                latent,
                phase,
                "stop-and-go",
                oilC,
                claimed,
                outcome,
                noticed ? 0.04 : Double.NaN,
                noticed ? List.of("P0868") : List.of(),
                PumpState.ELECTRIC,
                noticed ? DrivePermission.REDUCED : DrivePermission.GRANTED,
                5.2e5,
                Double.POSITIVE_INFINITY,
                outcome.covered() ? Double.NaN : 0.1,
                highestPa,
                EFFECT,
                "P0868, first 40 ms after it; drive reduced");
    }

    /** A claimed run noticed by reduced drive alone, with hold pressure (4 bar) or without. */
    static FaultRun withoutCode(Phase phase, double lowestPa) {
        FaultRun run = run(FaultKind.BUS_DROPOUT, phase, Outcome.NOTICED_IN_TIME, true);
        return new FaultRun(
                run.fault(),
                null,
                phase,
                run.drive(),
                run.oilC(),
                true,
                run.outcome(),
                run.noticedAfterS(),
                List.of(),
                run.state(),
                run.permission(),
                lowestPa,
                run.lowestMargin(),
                run.slipAfterS(),
                run.highestPressurePa(),
                EFFECT,
                "no trouble code; drive reduced, first 40 ms after it");
    }

    /** Two runs without a code, one of them without hold pressure. */
    static Campaign silent() {
        return campaign(
                Builds.demonstration(),
                List.of(withoutCode(Phase.CREEPING, 3.9e5), withoutCode(Phase.CRUISING, 4.1e5)));
    }

    /** A hose leak and a seized pump that comes to {@code outcome} while pulling away. */
    static Campaign small(Outcome outcome, boolean claimed) {
        return campaign(
                Builds.demonstration(),
                List.of(
                        run(FaultKind.HOSE_LEAK, Phase.CREEPING, Outcome.NOTICED_IN_TIME, true),
                        run(FaultKind.HOSE_LEAK, Phase.CRUISING, Outcome.HARMLESS, true),
                        run(FaultKind.PUMP_STALLED, Phase.PULLING_AWAY, outcome, claimed)));
    }

    /** Every fault in every phase at two temperatures, every third run harmless, the others of every outcome. */
    static Campaign large() {
        List<FaultRun> runs = new ArrayList<>();
        for (FaultKind kind : FaultKind.values()) {
            for (Phase phase : Phase.values()) {
                for (double oilC : new double[] {-20, 120}) {
                    int n = runs.size();
                    Outcome outcome = Outcome.values()[n % 3 == 0 ? 0 : n * 7 % 5];
                    runs.add(run(kind, null, phase, oilC, outcome, n % 11 > 0, n % 13 == 0 ? 2.9e8 : 9e5));
                }
            }
        }
        return campaign(Builds.demonstration(), runs);
    }

    /** A campaign of faults that cannot befall the build. */
    static Campaign empty() {
        return new Campaign(Builds.demonstration(), List.of(), List.of(), 0, List.of(), List.of());
    }

    static Campaign campaign(Build build, List<FaultRun> singles) {
        FaultRun pair =
                run(FaultKind.PUMP_DRY, FaultKind.SENDER_STUCK, Phase.CREEPING, 120, Outcome.NEVER_NOTICED, true, 9e5);
        return new Campaign(
                build,
                singles,
                List.of(pair),
                40,
                List.of(
                        new LatentFinding(FaultKind.MAIN_RELAY_WELDED, true, List.of("P27A1")),
                        new LatentFinding(FaultKind.STANDBY_RELAY_WELDED, true, List.of("P17A1")),
                        new LatentFinding(FaultKind.CURRENT_SENSOR_DEAD, false, List.of()),
                        new LatentFinding(FaultKind.PUMP_WORN, false, List.of("P17E1"))),
                List.of(new Coverage(FaultKind.Part.PUMP, "current", 7, 6, 182, 181, "high", "a table (from memory)")));
    }
}
