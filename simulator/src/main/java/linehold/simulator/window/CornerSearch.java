package linehold.simulator.window;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import linehold.simulator.build.Spread;
import linehold.simulator.prove.Reserve;
import linehold.simulator.run.Parallel;
import linehold.simulator.window.Tolerance.Corner;
import linehold.simulator.window.Tolerance.End;

/**
 * The worst car within the spreads: each value alone at both its ends tells which end hurts; all of them together at those
 * ends are the corner; then the ends are turned over one by one for as long as that makes it worse. A response that is
 * worst inside the spreads, or only where several ends turn together, may be missed.
 */
final class CornerSearch {
    private static final int MOST_ROUNDS = 5;

    private final ToleranceTrial trial;
    private final String drive;
    private final double oilC;
    private final List<Spread> spreads;

    CornerSearch(ToleranceTrial trial, String drive, double oilC) {
        this.trial = trial;
        this.drive = drive;
        this.oilC = oilC;
        spreads = trial.spreads();
    }

    /** Runs that are always needed; turning ends over may take more. */
    int steps() {
        return 3 * spreads.size() + 1;
    }

    Corner worst(Runnable done) {
        int count = spreads.size();
        List<double[]> alone = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            alone.add(with(trial.nominal(), i, spreads.get(i).low()));
            alone.add(with(trial.nominal(), i, spreads.get(i).high()));
        }
        List<Reserve> found = reserves(alone, done);
        double[] corner = trial.nominal();
        for (int i = 0; i < count; i++) {
            double low = found.get(2 * i).least();
            double high = found.get(2 * i + 1).least();
            if (low != high) {
                corner[i] = low < high ? spreads.get(i).low() : spreads.get(i).high();
            }
        }
        return turnedOver(corner, done);
    }

    private Corner turnedOver(double[] start, Runnable done) {
        double[] corner = start;
        Reserve worst = reserves(List.of(corner), done).get(0);
        for (int round = 0; round < MOST_ROUNDS; round++) {
            List<double[]> turned = new ArrayList<>();
            for (int i = 0; i < spreads.size(); i++) {
                turned.add(with(corner, i, otherEnd(spreads.get(i), corner[i])));
            }
            List<Reserve> found = reserves(turned, round == 0 ? done : () -> {});
            int best = -1;
            for (int i = 0; i < found.size(); i++) {
                if (found.get(i).least() < worst.least()) {
                    worst = found.get(i);
                    best = i;
                }
            }
            if (best < 0) {
                break;
            }
            corner = turned.get(best);
        }
        return new Corner(worst, ends(corner));
    }

    private List<End> ends(double[] corner) {
        List<End> ends = new ArrayList<>();
        for (int i = 0; i < corner.length; i++) {
            Spread spread = spreads.get(i);
            if (corner[i] == spread.low() || corner[i] == spread.high()) {
                ends.add(new End(spread, corner[i] == spread.high()));
            }
        }
        return ends;
    }

    private static double otherEnd(Spread spread, double value) {
        return value == spread.low() ? spread.high() : spread.low();
    }

    private static double[] with(double[] values, int i, double value) {
        double[] changed = values.clone();
        changed[i] = value;
        return changed;
    }

    private List<Reserve> reserves(List<double[]> cars, Runnable done) {
        List<Callable<Reserve>> tasks = new ArrayList<>();
        for (double[] car : cars) {
            tasks.add(() -> trial.reserve(drive, oilC, car, 0));
        }
        return Parallel.all(tasks, done);
    }
}
