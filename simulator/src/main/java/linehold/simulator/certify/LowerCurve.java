package linehold.simulator.certify;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import linehold.simulator.certificate.Curve;

/**
 * Builds a curve of straight lines below every solution: on each line the slope of each state is the least that the lower
 * system gives at its ends, and is compared in between. So the curve is a lower solution by construction, up to the slack
 * of the system; steps are as long as the slopes hardly change.
 *
 * <pre>x_{k+1} = x_k + h·min(f(x_k), f(x_{k+1}))</pre>
 */
final class LowerCurve {
    private static final double LONGEST_STEP_S = 10e-3;
    private static final double SHORTEST_STEP_S = 1e-9;
    private static final int MOST_POINTS = 20_000;
    /** Slopes may change along a line by as much as moves its end by this, relative and absolute. */
    private static final double TOLERABLE_PA = 100;

    private static final double TOLERABLE_RELATIVE = 2e-4;
    private static final double TOLERABLE_RAD_PER_S = 0.2;
    private static final int SAMPLES = 8;
    private static final int NEWTON_STEPS = 12;

    private final LowerSystem system;
    private final DoubleUnaryOperator shaft;
    private final double touchPa;
    private final double fineness;
    private double[] timeS = new double[512];
    private double[] line = new double[512];
    private double[] piston = new double[512];
    private double[] pump = new double[512];
    private int last;

    /**
     * Begins with the pump at rest.
     *
     * @param shaft lowest shaft speed over time, rad/s
     * @param p line pressure, Pa
     * @param q piston pressure, Pa
     * @param touchPa piston pressure at which the piston lets go and the curve ends, Pa
     * @param fineness 1, or more for shorter steps
     */
    LowerCurve(LowerSystem system, DoubleUnaryOperator shaft, double p, double q, double touchPa, double fineness) {
        this.touchPa = touchPa;
        this.fineness = fineness;
        this.system = system;
        this.shaft = shaft;
        line[0] = p;
        piston[0] = q;
    }

    double nowS() {
        return timeS[last];
    }

    double linePa() {
        return line[last];
    }

    double pistonPa() {
        return piston[last];
    }

    double pumpRadPerS() {
        return pump[last];
    }

    /** How fast line and pump still move: relative change in a second. */
    double unrest(boolean contactClosed) {
        double n = shaft.applyAsDouble(nowS());
        double p = system.lineSlope(linePa(), linePa() - pistonPa(), pumpRadPerS(), n) / linePa();
        double w = system.pumpSlope(pumpRadPerS(), contactClosed) / Math.max(1, pumpRadPerS());
        return Math.max(Math.abs(p), pumpRadPerS() == 0 && !contactClosed ? 0 : Math.abs(w));
    }

    /** Whether to stop at the point just reached. */
    interface Until {
        boolean reached();
    }

    /**
     * Goes on to a time, or until something is reached.
     *
     * @return false where it got stuck
     */
    boolean advance(double toS, boolean contactClosed, Until until) {
        double stepS = 20e-6;
        while (nowS() < toS && !until.reached()) {
            if (last > MOST_POINTS || !(pistonPa() >= touchPa)) {
                return false;
            }
            double leftS = toS - nowS();
            double h = Math.min(stepS, leftS);
            double takenS = leftS - h < 0.1 * h ? toS : nowS() + h;
            double change = attempt(takenS, contactClosed);
            while (!(change <= 1) && h > SHORTEST_STEP_S) {
                h *= 0.5;
                takenS = nowS() + h;
                change = attempt(takenS, contactClosed);
            }
            if (!(change <= 1)) {
                return false;
            }
            last++;
            stepS = Math.min(LONGEST_STEP_S, h * Math.min(2, 0.9 / Math.sqrt(Math.max(change, 0.1))));
        }
        return true;
    }

    /** Writes the next point; returns how much the slopes change on the way, 1 is tolerable. */
    private double attempt(double toS, boolean closed) {
        grow();
        double h = toS - nowS();
        double p0 = linePa();
        double q0 = pistonPa();
        double w0 = pumpRadPerS();
        double n0 = shaft.applyAsDouble(nowS());
        double n1 = shaft.applyAsDouble(toS);
        double fw0 = system.pumpSlope(w0, closed);
        double w1 = pumpAt(w0, h, fw0, closed);
        double fp0 = system.lineSlope(p0, p0 - q0, w0, n0);
        double fq0 = system.pistonSlope(p0 - q0);
        double[] next = pressuresAt(h, p0, q0, w1, n1, fp0, fq0);
        double p1 = next[0];
        double q1 = next[1];
        if (!(p1 > 0 && q1 > 0)) {
            return Double.POSITIVE_INFINITY;
        }
        last++;
        timeS[last] = toS;
        line[last] = p1;
        piston[last] = q1;
        pump[last] = w1;
        last--;
        // Twice: the second time for what the first has moved.
        lower(h, 1);
        double excess = lower(h, 0);
        double tolerablePa = (TOLERABLE_PA + TOLERABLE_RELATIVE * Math.max(p0, p1)) / fineness;
        double changeP = Math.abs(system.lineSlope(p1, p1 - q1, w1, n1) - fp0) * h / tolerablePa;
        double changeQ = Math.abs(system.pistonSlope(p1 - q1) - fq0) * h / (5 * tolerablePa);
        double changeW = Math.abs(system.pumpSlope(w1, closed) - fw0)
                * h
                * fineness
                / (TOLERABLE_RAD_PER_S + TOLERABLE_RELATIVE * Math.max(w0, w1));
        double correction = (p1 - line[last + 1] + q1 - piston[last + 1]) / tolerablePa;
        boolean lowerSolution = excess <= 0 && correction >= 0;
        return lowerSolution
                ? Math.max(Math.max(changeP, changeQ), Math.max(changeW, 4 * correction))
                : Double.POSITIVE_INFINITY;
    }

    /**
     * Takes the end of the new line down to where its slopes are the least of the system's along it.
     *
     * @param share how much of that is done: 1, or 0 to look only
     * @return by how much the end is still too high, Pa
     */
    private double lower(double h, double share) {
        int next = last + 1;
        double least = Double.POSITIVE_INFINITY;
        double leastPiston = Double.POSITIVE_INFINITY;
        double before = Double.NaN;
        double jump = 0;
        for (int i = 0; i <= SAMPLES; i++) {
            double at = (double) i / SAMPLES;
            double p = line[last] + at * (line[next] - line[last]);
            double d = p - (piston[last] + at * (piston[next] - piston[last]));
            double w = pump[last] + at * (pump[next] - pump[last]);
            double slope = system.lineSlope(p, d, w, shaft.applyAsDouble(timeS[last] + at * h));
            jump = i == 0 ? 0 : Math.max(jump, Math.abs(slope - before));
            before = slope;
            least = Math.min(least, slope);
            leastPiston = Math.min(leastPiston, system.pistonSlope(d));
        }
        // Between two samples a bend, such as the relief closing, may reach lower.
        least -= 0.5 * jump;
        double lineExcess = line[next] - (line[last] + h * least);
        double pistonExcess = piston[next] - (piston[last] + h * leastPiston);
        // Half of the system's slack is left for the checker's rounding and boxes.
        double allowed = share == 1 ? 0 : 0.5 * h * system.pistonSlack();
        line[next] -= share * Math.max(0, lineExcess);
        piston[next] -= share * Math.max(0, pistonExcess);
        return Math.max(lineExcess - 0.1 * h * jump - 1e-9 * line[next], pistonExcess - allowed);
    }

    /** The next pump speed: w_1 = w_0 + h·min(f(w_0), f(w_1)), by bisection between 0 and the explicit step. */
    private double pumpAt(double w0, double h, double fw0, boolean closed) {
        double high = Math.max(0, w0 + h * fw0);
        if (high == 0 || high - w0 <= h * system.pumpSlope(high, closed)) {
            return high;
        }
        double low = 0;
        for (int i = 0; i < 60 && high - low > 1e-12 * high; i++) {
            double middle = 0.5 * (low + high);
            if (middle - w0 <= h * system.pumpSlope(middle, closed)) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** Both pressures at the end of a line, by Newton's method with numerical derivatives. */
    private double[] pressuresAt(double h, double p0, double q0, double w1, double n1, double fp0, double fq0) {
        double p = p0 + h * fp0;
        double d = p0 - q0;
        for (int i = 0; i < NEWTON_STEPS; i++) {
            double rp = p - p0 - h * Math.min(fp0, system.lineSlope(p, d, w1, n1));
            double rq = p - d - q0 - h * Math.min(fq0, system.pistonSlope(d));
            double dp = 1e-6 * Math.abs(p) + 1e-3;
            double dd = 1e-6 * Math.abs(d) + 1e-3;
            double pp = (p + dp - p0 - h * Math.min(fp0, system.lineSlope(p + dp, d, w1, n1)) - rp) / dp;
            double pd = (p - p0 - h * Math.min(fp0, system.lineSlope(p, d + dd, w1, n1)) - rp) / dd;
            double qd = (p - (d + dd) - q0 - h * Math.min(fq0, system.pistonSlope(d + dd)) - rq) / dd;
            double qp = 1;
            double determinant = pp * qd - pd * qp;
            double stepP = (rp * qd - pd * rq) / determinant;
            double stepD = (pp * rq - qp * rp) / determinant;
            p -= stepP;
            d -= stepD;
            if (Math.abs(stepP) + Math.abs(stepD) < 1e-7 * Math.abs(p)) {
                break;
            }
        }
        return new double[] {p, p - d};
    }

    /** Ends the curve by a short fall to given pressures, at an unchanged pump speed. */
    void fallTo(double p, double q, double inS) {
        grow();
        last++;
        timeS[last] = timeS[last - 1] + inS;
        line[last] = p;
        piston[last] = q;
        pump[last] = pump[last - 1];
    }

    private void grow() {
        if (last + 2 > timeS.length) {
            int longer = 2 * timeS.length;
            timeS = Arrays.copyOf(timeS, longer);
            line = Arrays.copyOf(line, longer);
            piston = Arrays.copyOf(piston, longer);
            pump = Arrays.copyOf(pump, longer);
        }
    }

    Curve curve() {
        return new Curve(
                Arrays.copyOf(timeS, last + 1),
                Arrays.copyOf(line, last + 1),
                Arrays.copyOf(piston, last + 1),
                Arrays.copyOf(pump, last + 1));
    }
}
