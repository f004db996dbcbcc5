package linehold.simulator.window;

import linehold.controller.calibration.Key;

/** Finds the lowest switch-on speed that keeps the hold pressure in a stop, by bisection on the closed loop. */
final class SpeedSearch {
    static final double RPM = Math.PI / 30;
    /** Results are multiples of this, rad/s. */
    static final double STEP_RAD_PER_S = 5 * RPM;

    private static final int LOWEST_STEP = 22;
    /** No lower speed is tried: the controller takes anything below 100 rpm for standstill by default. */
    static final double LOWEST_RAD_PER_S = LOWEST_STEP * STEP_RAD_PER_S;

    private static final int HIGHEST_STEP = (int) Math.floor(Key.SWITCH_ON_SPEED.most() / STEP_RAD_PER_S + 1e-9);

    private SpeedSearch() {}

    /**
     * @param guessRadPerS where to start; NaN for no idea
     * @return rad/s; NaN where not even the highest speed that can be calibrated keeps it
     */
    static double lowest(StopTrial trial, double rateRadPerS2, double guessRadPerS) {
        int good = Integer.MAX_VALUE;
        int bad = LOWEST_STEP - 1;
        int try0 = Double.isNaN(guessRadPerS) ? 60 : (int) Math.round(guessRadPerS / STEP_RAD_PER_S);
        int step = Math.max(LOWEST_STEP, Math.min(HIGHEST_STEP, try0));
        int stride = Math.max(2, step / 16);
        // Widen from the guess until it is bracketed.
        while (good == Integer.MAX_VALUE || bad < LOWEST_STEP) {
            if (holds(trial, rateRadPerS2, step)) {
                good = step;
                if (bad >= LOWEST_STEP || good == LOWEST_STEP) {
                    break;
                }
                step = Math.max(LOWEST_STEP, step - stride);
            } else {
                bad = step;
                if (good != Integer.MAX_VALUE) {
                    break;
                }
                if (step == HIGHEST_STEP) {
                    return Double.NaN;
                }
                step = Math.min(HIGHEST_STEP, step + stride);
            }
            stride *= 2;
        }
        while (good - bad > 1) {
            int middle = (good + bad) >>> 1;
            if (holds(trial, rateRadPerS2, middle)) {
                good = middle;
            } else {
                bad = middle;
            }
        }
        return good * STEP_RAD_PER_S;
    }

    private static boolean holds(StopTrial trial, double rateRadPerS2, int step) {
        return trial.holds(rateRadPerS2, step * STEP_RAD_PER_S);
    }
}
