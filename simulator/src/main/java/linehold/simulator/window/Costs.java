package linehold.simulator.window;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import linehold.simulator.build.Build;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.RowDrive;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.prove.Verdict;
import linehold.simulator.window.Window.Pair;
import linehold.simulator.window.Window.Price;
import linehold.simulator.window.Window.Proof;

/** A window proved on the demonstration drives, and what it costs there. */
final class Costs {
    /** Operations of an automotive plug-in relay at its rated resistive load (common practice; the maker's sheet tells). */
    static final double RATED_OPERATIONS = 100_000;
    /** Share of them that a motor's inrush leaves: a motor rating is 20 to 50 % of the resistive one (from memory). */
    static final double MOTOR_SHARE = 0.3;

    private static final double HOUR_S = 3600;

    private final Setting setting;
    private final Verdict verdict;
    private final List<RowDrive> drives;

    private Costs(Setting setting, Verdict verdict, List<RowDrive> drives) {
        this.setting = setting;
        this.verdict = verdict;
        this.drives = drives;
    }

    static int steps(Build build, List<Double> oilC) {
        return BuiltInDrives.all(build).size() * oilC.size();
    }

    static Costs of(Build build, List<Double> oilC, Setting setting, Pair pair, LookAhead ahead, Runnable done) {
        Build tuned = Tuning.of(build, pair.onRadPerS(), pair.offRadPerS(), setting.aids(build), ahead);
        List<RowDrive> drives = BuiltInDrives.all(tuned);
        return new Costs(setting, new Prover(tuned, 1).prove(Prover.grid(drives, oilC), done), drives);
    }

    Proof proof() {
        long lost = verdict.runs().stream().filter(run -> !run.held()).count();
        return new Proof(setting, verdict.runs().size(), (int) lost, verdict.weakest());
    }

    /** Drive by drive, then all. */
    List<Price> prices() {
        List<Price> prices = new ArrayList<>();
        for (RowDrive drive : drives) {
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
                // A contact's operation is a closing and an opening.
                RATED_OPERATIONS * MOTOR_SHARE / (perHour / 2));
    }

    private static double sum(List<RunVerdict> runs, ToDoubleFunction<RunVerdict> value) {
        return runs.stream().mapToDouble(value).sum();
    }
}
