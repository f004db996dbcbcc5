package linehold.controller.speed;

import linehold.controller.signal.Slope;

/**
 * Shaft speed from the edges of a pickup without direction (LH-SP-1, LH-SP-2).
 *
 * <p>A tick sees how many edges have come and when the last one came, so several edges between two ticks count as evenly
 * spaced. While no edge comes, the speed is at most one pulse over the time since the last one.
 */
public final class ShaftSpeed {
    /**
     * Window of the slope. Assumed: an edge stamped 0.1 ms wrong then shows at most 3,000 rpm/s at 3,000 rpm, where only
     * tens of thousands matter, and the answer is some 15 ms old.
     */
    private static final long SLOPE_WINDOW_NS = 30_000_000;
    /** Enough for one sample per tick at the shortest control period, 1 ms. */
    private static final int SLOPE_SAMPLES = 64;
    /** Pulses that must be overdue before their absence means more than one edge missed by the pickup; assumed. */
    private static final double OVERDUE_PULSES = 2;
    /** An edge later than this many periods of the one before is overdue; assumed: an ordinary stop stays below it. */
    private static final double OVERDUE_PERIODS = 1.5;

    private final double pulseAngleRad;
    private final double leastPeriodNs;
    private final double highestFallRadPerS2;
    private final long aheadToleranceNs;
    private final Slope slope = new Slope(SLOPE_WINDOW_NS, SLOPE_SAMPLES);

    private long seenCount;
    /** Last edge, accepted or not. */
    private long seenEdgeNs;

    private boolean edgeKnown;
    private long acceptedEdgeNs;
    private long acceptedEdges;
    private long rejectedEdges;
    private int rejectedNow;

    /** Mean speed over {@link #measuredSpanS}, which ends at the last accepted edge; 0 while unknown. */
    private double measuredRadPerS;

    private double measuredSpanS;
    private long measuredMiddleNs;
    private double measuredSlope;

    private double speedRadPerS;
    private double slopeRadPerS2;
    private double extrapolatedRadPerS;
    private boolean overdue;
    private boolean fellTooFast;

    /**
     * @param pulseAngleRad shaft angle between two edges, rad
     * @param highestSpeedRadPerS edges closer than this speed gives are rejected, rad/s
     * @param highestFallRadPerS2 no shaft of this car slows down faster, rad/s²
     * @param aheadToleranceNs an edge may be stamped this much after the tick that reports it, ns
     */
    public ShaftSpeed(
            double pulseAngleRad, double highestSpeedRadPerS, double highestFallRadPerS2, long aheadToleranceNs) {
        this.pulseAngleRad = pulseAngleRad;
        this.leastPeriodNs = 1e9 * pulseAngleRad / highestSpeedRadPerS;
        this.highestFallRadPerS2 = highestFallRadPerS2;
        this.aheadToleranceNs = aheadToleranceNs;
    }

    /** Takes the pickup's counter and the time of its last edge as they are now. */
    public void update(long nowNs, long edgeCount, long lastEdgeNs) {
        long newEdges = edgeCount - seenCount;
        seenCount = edgeCount;
        rejectedNow = 0;
        if (newEdges != 0) {
            takeEdges(nowNs, newEdges, lastEdgeNs);
        }
        judge(nowNs);
    }

    private void takeEdges(long nowNs, long newEdges, long lastEdgeNs) {
        boolean garbage = newEdges < 0 || lastEdgeNs - aheadToleranceNs > nowNs || edgeKnown && lastEdgeNs < seenEdgeNs;
        if (garbage) {
            // A counter that jumped tells nothing about the speed: start anew from standstill, pump on.
            reject(1);
            forget();
        } else if (!edgeKnown) {
            reference(lastEdgeNs);
        } else if (lastEdgeNs - seenEdgeNs < leastPeriodNs * newEdges) {
            reject(newEdges);
            seenEdgeNs = lastEdgeNs;
        } else {
            accept(newEdges, lastEdgeNs);
        }
    }

    private void accept(long newEdges, long lastEdgeNs) {
        long spanNs = lastEdgeNs - acceptedEdgeNs;
        measuredMiddleNs = acceptedEdgeNs + spanNs / 2;
        measuredSpanS = spanNs * 1e-9;
        measuredRadPerS = newEdges * pulseAngleRad / measuredSpanS;
        measuredSlope = slope.perSecond(measuredMiddleNs, measuredRadPerS);
        slope.add(measuredMiddleNs, measuredRadPerS);
        acceptedEdges += newEdges;
        acceptedEdgeNs = lastEdgeNs;
        seenEdgeNs = lastEdgeNs;
    }

    private void reference(long edgeNs) {
        edgeKnown = true;
        acceptedEdgeNs = edgeNs;
        seenEdgeNs = edgeNs;
    }

    private void reject(long edges) {
        rejectedNow = (int) Math.min(edges, Integer.MAX_VALUE);
        rejectedEdges += edges;
    }

    private void forget() {
        edgeKnown = false;
        measuredRadPerS = 0;
        slope.reset();
    }

    private void judge(long nowNs) {
        overdue = false;
        fellTooFast = false;
        if (measuredRadPerS == 0) {
            speedRadPerS = 0;
            slopeRadPerS2 = Double.NaN;
            extrapolatedRadPerS = 0;
            return;
        }
        long elapsedNs = Math.max(0, nowNs - acceptedEdgeNs);
        double elapsedS = elapsedNs * 1e-9;
        if (measuredRadPerS * elapsedS <= pulseAngleRad) {
            speedRadPerS = measuredRadPerS;
            slopeRadPerS2 = measuredSlope;
            extrapolate(measuredRadPerS, nowNs - measuredMiddleNs);
            return;
        }
        // The next edge is overdue. As if it came now: that is the highest speed, and the mildest slope, still
        // possible.
        double boundRadPerS = pulseAngleRad / elapsedS;
        long middleNs = acceptedEdgeNs + elapsedNs / 2;
        speedRadPerS = boundRadPerS;
        slopeRadPerS2 = slope.perSecond(middleNs, boundRadPerS);
        extrapolate(boundRadPerS, nowNs - middleNs);
        overdue = measuredRadPerS * elapsedS > OVERDUE_PERIODS * pulseAngleRad;
        fellTooFast = overdueBeyondPhysics(elapsedS);
    }

    private void extrapolate(double radPerS, long aheadNs) {
        double change = slopeRadPerS2 < 0 ? slopeRadPerS2 * aheadNs * 1e-9 : 0;
        extrapolatedRadPerS = Math.max(0, radPerS + change);
    }

    /**
     * Whether edges are missing that even the hardest possible stop would have given. Under constant deceleration a the
     * speed at the last edge is at least the mean over the span before it less a·span/2, and the angle turned since is
     * v·t − a·t²/2 until standstill at v/a.
     */
    private boolean overdueBeyondPhysics(double elapsedS) {
        double a = highestFallRadPerS2;
        double v = measuredRadPerS - a * measuredSpanS / 2;
        if (v <= 0) {
            return false;
        }
        double turningS = Math.min(elapsedS, v / a);
        return v * turningS - a * turningS * turningS / 2 > OVERDUE_PULSES * pulseAngleRad;
    }

    /** Highest speed that the pulses allow, rad/s; 0 until two edges have come. */
    public double radPerS() {
        return speedRadPerS;
    }

    /** Change of speed, rad/s²; NaN while unknown. */
    public double slopeRadPerS2() {
        return slopeRadPerS2;
    }

    /** The speed now if it went on falling since its last measurement, rad/s; never above {@link #radPerS}. */
    public double extrapolatedRadPerS() {
        return extrapolatedRadPerS;
    }

    /** Whether the next edge is so late that the shaft may have come to rest since the last one. */
    public boolean overdue() {
        return overdue;
    }

    /** Time of the last accepted edge, ns; before the first one it means nothing, and the speed is 0. */
    public long lastEdgeNs() {
        return acceptedEdgeNs;
    }

    /** Whether edges are missing that no stop of this car could suppress (LH-SP-3). */
    public boolean fellTooFast() {
        return fellTooFast;
    }

    /** Edges accepted since power-up. */
    public long acceptedEdges() {
        return acceptedEdges;
    }

    /** Edges rejected since power-up (LH-SP-2). */
    public long rejectedEdges() {
        return rejectedEdges;
    }

    /** Edges rejected at this tick. */
    public int rejectedNow() {
        return rejectedNow;
    }
}
