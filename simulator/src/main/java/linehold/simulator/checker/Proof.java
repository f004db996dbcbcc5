package linehold.simulator.checker;

import java.util.Locale;
import linehold.simulator.certificate.Curve;

/**
 * Whether a curve of straight lines is a lower solution: on each of its lines the slopes are at most what the equations give
 * there, over the whole line and over every parameter.
 *
 * @param equations of one slice of oil temperature
 * @param where how a refusal calls the curve
 */
record Proof(Equations equations, String where) {
    /** A line is cut in two this often before it is refused; the boxes get smaller, and with them their overestimate. */
    private static final int MOST_CUTS = 12;

    /** The lowest shaft speed up to a time; it never rises. */
    interface Shaft {
        Interval leastUntil(double timeS);
    }

    /** Rule 4: times rise from zero, and every number is one. */
    void shape(Curve curve) throws Refusal {
        boolean good = curve.points() >= 2 && curve.timeS()[0] == 0;
        for (int k = 0; good && k < curve.points(); k++) {
            good = Double.isFinite(curve.timeS()[k])
                    && (k == 0 || curve.timeS()[k] > curve.timeS()[k - 1])
                    && curve.linePa()[k] > 0
                    && curve.linePa()[k] < 1e12
                    && curve.pistonPa()[k] > 0
                    && curve.pistonPa()[k] < 1e12
                    && curve.pumpRadPerS()[k] >= 0
                    && curve.pumpRadPerS()[k] < 1e12;
        }
        if (!good) {
            throw new Refusal(where + " is no curve: times must rise from 0, pressures lie above 0, speeds not below");
        }
    }

    /** Rule 5 (beginning) and 7 (end): the state does not fall when the shaft stays at this speed. */
    void rests(Curve curve, int k, Interval shaft, boolean contactClosed, String place) throws Refusal {
        Interval p = Interval.of(curve.linePa()[k]);
        Interval d = p.minus(Interval.of(curve.pistonPa()[k]));
        Interval w = Interval.of(curve.pumpRadPerS()[k]);
        boolean atRest = equations.leastLineSlope(p, d, w, shaft) >= 0
                && equations.leastPistonSlope(d) >= 0
                && (w.high() == 0 || equations.leastPumpSlope(w, contactClosed) >= 0);
        if (!atRest) {
            throw new Refusal(where + ": " + place + " is no lower bound of a state that lasts");
        }
    }

    /** Rule 6, every line of the curve. */
    void slopes(Curve curve, Shaft shaft, double closedAfterS) throws Refusal {
        for (int k = 0; k + 1 < curve.points(); k++) {
            Line line = new Line(curve, k, curve.timeS()[k] >= closedAfterS);
            String broken = line.broken(this, shaft, 0, 1, 0);
            if (broken != null) {
                throw new Refusal(String.format(
                        Locale.ROOT,
                        "%s, segment %d at %.3f ms: %s falls more slowly, or rises faster, than the equations allow",
                        where,
                        k + 1,
                        1e3 * curve.timeS()[k],
                        broken));
            }
        }
    }

    /** One line; positions on it run from 0 to 1. */
    private record Line(Curve curve, int k, boolean contactClosed) {
        /** What is steeper than allowed between two positions; null where nothing is. */
        String broken(Proof proof, Shaft shaft, double from, double to, int cuts) {
            String broken = brokenInBox(proof.equations, shaft, from, to);
            if (broken == null || cuts == MOST_CUTS) {
                return broken;
            }
            double middle = 0.5 * (from + to);
            broken = broken(proof, shaft, from, middle, cuts + 1);
            return broken != null ? broken : broken(proof, shaft, middle, to, cuts + 1);
        }

        private String brokenInBox(Equations equations, Shaft shaft, double from, double to) {
            Interval p = between(curve.linePa(), from, to);
            Interval w = between(curve.pumpRadPerS(), from, to).max(Interval.ZERO);
            // p − q is a straight line as well: taken as such it is not widened by p and q varying alike.
            Interval d = difference(from).hull(difference(to));
            Interval n = shaft.leastUntil(at(curve.timeS(), to).high());
            if (slope(curve.linePa()) > equations.leastLineSlope(p, d, w, n)) {
                return "line pressure";
            }
            if (slope(curve.pistonPa()) > equations.leastPistonSlope(d)) {
                return "piston pressure";
            }
            // The pump never turns below zero: that bound needs no proof.
            boolean stands = curve.pumpRadPerS()[k] == 0 && curve.pumpRadPerS()[k + 1] == 0;
            if (!stands && slope(curve.pumpRadPerS()) > equations.leastPumpSlope(w, contactClosed)) {
                return "pump speed";
            }
            return null;
        }

        private Interval difference(double position) {
            return at(curve.linePa(), position).minus(at(curve.pistonPa(), position));
        }

        private Interval between(double[] values, double from, double to) {
            return at(values, from).hull(at(values, to));
        }

        private Interval at(double[] values, double position) {
            Interval first = Interval.of(values[k]);
            return first.plus(Interval.of(values[k + 1]).minus(first).times(position));
        }

        /** Upper end of the slope. */
        private double slope(double[] values) {
            Interval rise = Interval.of(values[k + 1]).minus(Interval.of(values[k]));
            Interval run = Interval.of(curve.timeS()[k + 1]).minus(Interval.of(curve.timeS()[k]));
            return rise.over(run).high();
        }
    }
}
