package linehold.simulator.sensor;

/**
 * A tooth-wheel pickup on the shaft: one edge whenever a tooth passes, in whichever direction. It follows the integrated
 * shaft angle, so that edges fall where teeth are and not where a speed would put them.
 *
 * <pre>θ(t) = θ0 + ω0·t + ½·a·t²   (linear speed)      an edge at every multiple of 2π/N</pre>
 */
public final class SpeedPickup {
    private final double pitchesPerRad;
    /** Angle within one tooth pitch, 0 to 1. */
    private double phase;

    private long edgeCount;
    private double lastEdgeS;

    /** @param pulsesPerRev N, 1 or more */
    public SpeedPickup(int pulsesPerRev) {
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
            edgeCount += (long) Math.abs(whole);
            // The last tooth that passed: 'whole' going forward, the one above it going backward.
            double tooth = whole > 0 ? whole : whole + 1;
            lastEdgeS = fromS + timeTo((tooth - phase) / pitchesPerRad, radPerS, slope, durationS);
        }
        phase = end - whole;
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
