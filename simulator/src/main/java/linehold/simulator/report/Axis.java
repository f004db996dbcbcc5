package linehold.simulator.report;

/**
 * A linear scale between values and places on the drawing, with round tick values.
 *
 * @param from lowest value
 * @param to highest value, above {@code from}
 * @param fromPx place of the lowest value
 * @param toPx place of the highest value; may be less than {@code fromPx}
 * @param step distance of two ticks: 1, 2 or 5 times a power of ten
 */
record Axis(double from, double to, double fromPx, double toPx, double step) {

    /** Scale over exactly these values with at most about so many ticks. */
    static Axis over(double from, double to, double fromPx, double toPx, int ticks) {
        double end = to > from ? to : from + 1;
        return new Axis(from, end, fromPx, toPx, roundStep((end - from) / ticks));
    }

    private static double roundStep(double least) {
        double power = Math.pow(10, Math.floor(Math.log10(least)));
        double lead = least / power;
        return power * (lead <= 1.0001 ? 1 : lead <= 2.0001 ? 2 : lead <= 5.0001 ? 5 : 10);
    }

    double px(double value) {
        return fromPx + (value - from) / (to - from) * (toPx - fromPx);
    }

    /** Tick values from low to high. */
    double[] ticks() {
        long first = (long) Math.ceil(from / step - 1e-9);
        long last = (long) Math.floor(to / step + 1e-9);
        double[] ticks = new double[(int) (last - first + 1)];
        for (int i = 0; i < ticks.length; i++) {
            ticks[i] = (first + i) * step;
        }
        return ticks;
    }

    String label(double tick) {
        int decimals = Math.max(0, (int) Math.ceil(-Math.log10(step) - 1e-9));
        return Numbers.fixed(tick, decimals);
    }
}
