package linehold.rig.procedure;

/** Whether line pressure has come to rest: the means of two half seconds in a row lie close together. */
final class Settling {
    private static final double WINDOW_S = 0.5;
    /** As close as this, Pa; assumed: well above the noise of a mean, below what matters. */
    private static final double CLOSE_PA = 5_000;

    /** A pump that starts may pass through a level for a while; assumed. */
    private static final double LEAST_S = 2;

    private final Mean window = new Mean();
    private double endsS;
    private double before;
    private boolean settled;

    boolean settled(Reading now) {
        if (now.first()) {
            window.clear();
            before = Double.NaN;
            endsS = WINDOW_S;
            settled = false;
        }
        window.add(now.pressurePa);
        if (now.stepS() >= endsS) {
            double mean = window.value();
            settled = Math.abs(mean - before) <= CLOSE_PA && now.stepS() >= LEAST_S;
            before = mean;
            endsS += WINDOW_S;
            window.clear();
        }
        return settled;
    }

    /** Mean pressure of the last whole half second, Pa; NaN before. */
    double meanPa() {
        return before;
    }
}
