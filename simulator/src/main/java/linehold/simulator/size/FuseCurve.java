package linehold.simulator.size;

import linehold.simulator.build.InstallationSpec.FuseType;

/**
 * How long a fuse carries a current: the shortest and longest opening times of its family, straight lines between points
 * on logarithmic axes. The form follows ISO 8820-3 and SAE J1284; the figures are from memory, because neither standard
 * was at hand, and are good for the order of magnitude. The fuse's own curve goes before them.
 */
final class FuseCurve {
    /** At this current over the rating a fuse lasts at least 100 h. */
    private static final double CARRIES = 1.10;

    /** Current over rating, shortest time in s, longest time in s. */
    private static final double[][] BLADE = {
        {1.10, 360_000, Double.POSITIVE_INFINITY},
        {1.35, 0.75, 600},
        {2.00, 0.15, 5},
        {3.50, 0.08, 0.25},
        {6.00, 0.03, 0.10},
    };

    private static final double[][] HIGH_CURRENT_BLADE = {
        {1.10, 360_000, Double.POSITIVE_INFINITY},
        {1.35, 60, 1800},
        {2.00, 2, 60},
        {3.50, 0.2, 7},
        {6.00, 0.04, 1},
    };

    private final double[][] points;
    private final double ratingAmps;

    FuseCurve(FuseType type, double ratingAmps) {
        this.ratingAmps = ratingAmps;
        this.points = switch (type) {
            case BLADE -> BLADE;
            case HIGH_CURRENT_BLADE -> HIGH_CURRENT_BLADE;
        };
    }

    /** Shortest time in which it may open, s; infinite where it must carry the current. */
    double shortestS(double amps) {
        return amps / ratingAmps <= CARRIES ? Double.POSITIVE_INFINITY : between(amps / ratingAmps, 1);
    }

    /** Longest time in which it must have opened, s; infinite where it need not open. */
    double longestS(double amps) {
        return amps / ratingAmps < points[1][0] ? Double.POSITIVE_INFINITY : between(amps / ratingAmps, 2);
    }

    private double between(double over, int column) {
        int i = 1;
        while (i < points.length - 1 && over > points[i][0]) {
            i++;
        }
        double[] left = points[i - 1];
        double[] right = points[i];
        if (over >= right[0]) {
            return right[column];
        }
        double share = StrictMath.log(over / left[0]) / StrictMath.log(right[0] / left[0]);
        return left[column] * StrictMath.pow(right[column] / left[column], share);
    }

    /**
     * Share of its shortest life that a decaying starting current uses up: the integral of dt/t(i) over i(t) = i_run +
     * (i_start − i_run)·e^(−t/τ). That shares add up is assumed, as for fatigue (Miner).
     */
    double startShare(double startAmps, double runAmps, double timeConstantS) {
        int steps = 2000;
        double stepS = 10 * timeConstantS / steps;
        double share = 0;
        for (int i = 0; i < steps; i++) {
            double amps = runAmps + (startAmps - runAmps) * StrictMath.exp(-(i + 0.5) * stepS / timeConstantS);
            share += stepS / shortestS(amps);
        }
        return share;
    }
}
