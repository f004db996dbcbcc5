package linehold.simulator.electrics;

import linehold.simulator.build.RelaySpec;

/**
 * The contact of one relay as its coil is driven: it follows after the time to close or to open, a pulse shorter than
 * that moves nothing, and it bounces after closing, opening and closing every half millisecond.
 */
public final class RelayContact {
    /** Length of one bounce phase, s. */
    private static final double BOUNCE_PHASE_S = 0.5e-3;
    /** Two times closer than this are the same instant, s: far below any delay, far above rounding of a day. */
    private static final double SAME_INSTANT_S = 1e-9;

    /** What a broken relay does whatever its coil says. */
    public enum Failure {
        NONE,
        WELDED,
        STUCK_OPEN
    }

    private final RelaySpec relay;
    private double bounceS;
    private boolean asked;
    private boolean armatureClosed;
    private boolean touching;
    private Failure failure = Failure.NONE;
    private double moveAtS = Double.POSITIVE_INFINITY;
    private double bounceEndS;
    private double nextBounceS = Double.POSITIVE_INFINITY;
    private long moves;

    /**
     * @param withBounce false leaves the contact closed at once
     * @param closedAtFirst the contact equals what is asked of it at the first instant
     */
    public RelayContact(RelaySpec relay, boolean withBounce, boolean closedAtFirst) {
        this.relay = relay;
        bounceS = withBounce ? relay.bounceS() : 0;
        asked = closedAtFirst;
        armatureClosed = closedAtFirst;
        touching = closedAtFirst;
    }

    /** From now on the coil asks the contact to close, or to open. */
    public void ask(double nowS, boolean toClose) {
        if (toClose == asked) {
            return;
        }
        asked = toClose;
        // A pulse that ends before the armature moved cancels the move.
        moveAtS = asked == armatureClosed
                ? Double.POSITIVE_INFINITY
                : nowS + (asked ? relay.pullInS() : relay.dropOutS());
    }

    /** Time of the next change of the contact, s; infinite if none is due. */
    public double nextChangeS() {
        return Math.min(moveAtS, nextBounceS);
    }

    /** Lets the contact change as is due at {@code nowS}. */
    public void change(double nowS) {
        if (nowS >= moveAtS) {
            armatureClosed = asked;
            touching = asked;
            moves++;
            moveAtS = Double.POSITIVE_INFINITY;
            bounceEndS = nowS + bounceS;
            nextBounceS =
                    touching && bounceS > 0 ? Math.min(nowS + BOUNCE_PHASE_S, bounceEndS) : Double.POSITIVE_INFINITY;
        } else if (nowS >= nextBounceS) {
            boolean over = nextBounceS >= bounceEndS - SAME_INSTANT_S;
            touching = over || !touching;
            nextBounceS = over ? Double.POSITIVE_INFINITY : Math.min(nextBounceS + BOUNCE_PHASE_S, bounceEndS);
        }
    }

    /** A contact that bounces longer than a new one, s; counts from the next closing. */
    public void setBounceS(double newBounceS) {
        bounceS = newBounceS;
    }

    public void setFailure(Failure failure) {
        this.failure = failure;
    }

    /** Whether current can flow now. */
    public boolean isClosed() {
        return switch (failure) {
            case NONE -> touching;
            case WELDED -> true;
            case STUCK_OPEN -> false;
        };
    }

    /** Armature moves so far, bounce not counted. */
    public long moves() {
        return moves;
    }
}
