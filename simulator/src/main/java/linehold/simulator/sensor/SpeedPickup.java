package linehold.simulator.sensor;

/**
 * A tooth-wheel pickup on the shaft: one edge whenever a tooth passes, in whichever direction. It follows the integrated
 * shaft angle, so that edges fall where teeth are and not where a speed would put them.
 *
 * <pre>θ(t) = θ0 + ω0·t + ½·a·t²   (linear speed)      an edge at every multiple of 2π/N</pre>
 */
public final class SpeedPickup {
    private final int pulsesPerRev;
    private final double pitchesPerRad;
    /** Teeth that have passed, forward less backward: the number of the tooth behind the pickup. */
    private long tooth;
    /** Tooth 0 of every turn gives no edge. */
    private boolean toothMissing;

    /** Angle within one tooth pitch, 0 to 1. */
    private double phase;

    private long edgeCount;
    private double lastEdgeS;

    /** @param pulsesPerRev N, 1 or more */
    public SpeedPickup(int pulsesPerRev) {
        this.pulsesPerRev = pulsesPerRev;
        pitchesPerRad = pulsesPerRev / (2 * Math.PI);
        // Not on a tooth at first: a shaft at rest must not count an edge by rounding.
        phase = 0.5;
    }

    /**
     * The shaft turns for a while with linear speed.
     *
     * @param fromS time at the start, s
     * @param durationS length, s
     * @param radPerS speed at the start, rad/s, signed
     * @param slopeRadPerS2 its slope, rad/s²
     */
    public void turn(double fromS, double durationS, double radPerS, double slopeRadPerS2) {
        double reversalS = slopeRadPerS2 == 0 ? -1 : -radPerS / slopeRadPerS2;
        if (reversalS > 0 && reversalS < durationS) {
            turnOneWay(fromS, reversalS, radPerS, slopeRadPerS2);
            turnOneWay(fromS + reversalS, durationS - reversalS, 0, slopeRadPerS2);
        } else {
            turnOneWay(fromS, durationS, radPerS, slopeRadPerS2);
        }
    }

    private void turnOneWay(double fromS, double durationS, double radPerS, double slope) {
        double end = phase + pitchesPerRad * durationS * (radPerS + 0.5 * slope * durationS);
        double whole = Math.floor(end);
        if (whole != 0) {
            pass((long) whole, fromS, durationS, radPerS, slope);
        }
        phase = end - whole;
    }

    /** Counts the teeth that pass, and stamps the last of them. */
    private void pass(long whole, double fromS, double durationS, double radPerS, double slope) {
        // Going forward the teeth tooth+1 … tooth+whole pass; going backward tooth … tooth+whole+1.
        long first = whole > 0 ? tooth + 1 : tooth;
        long last = whole > 0 ? tooth + whole : tooth + whole + 1;
        long step = whole > 0 ? 1 : -1;
        long present = Math.abs(whole);
        if (toothMissing) {
            present -= missingBetween(Math.min(first, last), Math.max(first, last));
            if (Math.floorMod(last, (long) pulsesPerRev) == 0) {
                last -= step;
            }
        }
        if (present > 0) {
            edgeCount += present;
            double pitches = last - tooth - phase;
            lastEdgeS = fromS + timeTo(pitches / pitchesPerRad, radPerS, slope, durationS);
        }
        tooth += whole;
    }

    private long missingBetween(long low, long high) {
        return Math.floorDiv(high, (long) pulsesPerRev) - Math.floorDiv(low - 1, (long) pulsesPerRev);
    }

    /** One tooth of the wheel is missing from now on, or is there again. */
    public void setToothMissing(boolean missing) {
        toothMissing = missing;
    }

    /** Time in which the shaft turns by an angle, s: the root of ½·a·t² + ω0·t − θ that comes first. */
    private static double timeTo(double angleRad, double radPerS, double slope, double longestS) {
        double root = Math.sqrt(Math.max(0, radPerS * radPerS + 2 * slope * angleRad));
        double sum = radPerS + Math.copySign(root, angleRad);
        return sum == 0 ? 0 : Math.min(longestS, Math.max(0, 2 * angleRad / sum));
    }

    public long edgeCount() {
        return edgeCount;
    }

    /** Time of the last edge, s; 0 before the first. */
    public double lastEdgeS() {
        return lastEdgeS;
    }
}
