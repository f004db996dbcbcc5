package linehold.simulator.window;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import linehold.simulator.build.Build;
import linehold.simulator.drive.Drive;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.prove.Verdict;
import linehold.simulator.size.ContactLife;
import linehold.simulator.window.Window.Pair;
import linehold.simulator.window.Window.Price;
import linehold.simulator.window.Window.Proof;

/** A window proved on drives, and what it costs there. */
final class Costs {
    private static final double HOUR_S = 3600;
    /** To close and to open again. */
    private static final double MOVES_OF_A_CLOSING = 2;

    private final Setting setting;
    private final Verdict verdict;
    private final List<? extends Drive> drives;
    private final double closings;

    private Costs(Setting setting, Verdict verdict, List<? extends Drive> drives, double closings) {
        this.setting = setting;
        this.verdict = verdict;
        this.drives = drives;
        this.closings = closings;
    }

    static Costs of(
            Build build,
            List<? extends Drive> drives,
            List<Double> oilC,
            Setting setting,
            Pair pair,
            LookAhead ahead,
            Runnable done) {
        Build tuned = Tuning.of(build, pair.onRadPerS(), pair.offRadPerS(), setting.aids(build), ahead);
        Verdict verdict = new Prover(tuned, 1).prove(Prover.grid(drives, oilC), done);
        return new Costs(setting, verdict, drives, ContactLife.closings(build));
    }

    Proof proof() {
        long lost = verdict.runs().stream().filter(run -> !run.held()).count();
        return new Proof(setting, verdict.runs().size(), (int) lost, verdict.weakest());
    }

    /** Drive by drive, then all. */
    List<Price> prices() {
        List<Price> prices = new ArrayList<>();
        for (Drive drive : drives) {
            prices.add(price(
                    drive.name(),
                    verdict.runs().stream()
                            .filter(run -> run.drive().equals(drive.name()))
                            .toList()));
        }
        prices.add(price("all drives", verdict.runs()));
        return prices;
    }

    private Price price(String name, List<RunVerdict> runs) {
        double seconds = sum(runs, RunVerdict::durationS);
        double perHour = sum(runs, RunVerdict::relayOperations) * HOUR_S / seconds;
        return new Price(
                setting,
                name,
                sum(runs, run -> run.pumpOnShare() * run.durationS()) / seconds,
                perHour,
                sum(runs, RunVerdict::pumpEnergyJ) / seconds,
                closings / (perHour / MOVES_OF_A_CLOSING));
    }

    private static double sum(List<RunVerdict> runs, ToDoubleFunction<RunVerdict> value) {
        return runs.stream().mapToDouble(value).sum();
    }
}
