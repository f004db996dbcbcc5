package linehold.simulator.drivetrain;

/**
 * The ratio between motor and wheels while the transmission changes from one gear to the other: it passes linearly from
 * the old to the new in the shift time (a simplification; the real course depends on how the elements take over).
 */
public final class GearChange {
    private final double shiftS;
    private double fromRatio;
    private double toRatio;
    private double startS = Double.NEGATIVE_INFINITY;

    /** A transmission in neutral whose changes take the given time, s. */
    public GearChange(double shiftS) {
        this.shiftS = shiftS;
    }

    /** Starts a change to a signed ratio. */
    public void start(double nowS, double signedRatio) {
        fromRatio = ratio(nowS);
        toRatio = signedRatio;
        startS = nowS;
    }

    /** Takes a signed ratio without a change that lasts. */
    public void settle(double signedRatio) {
        fromRatio = signedRatio;
        toRatio = signedRatio;
    }

    /** Signed ratio at a time, motor turns per wheel turn. */
    public double ratio(double nowS) {
        double share = shiftS == 0 ? 1 : Math.min(1, (nowS - startS) / shiftS);
        return fromRatio + (toRatio - fromRatio) * share;
    }

    /** When the change that was started last is over, s; negative infinity before the first. */
    public double endS() {
        return startS + shiftS;
    }
}
