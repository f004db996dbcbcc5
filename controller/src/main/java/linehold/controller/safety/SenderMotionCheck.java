package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.signal.Span;

/**
 * LH-PR-4: a sender that does not move where pressure must have moved. Two occasions: a prime with a key-on test, in
 * which the pump is off and then on; and a hand-over, from standstill on the electric pump to the internal pump alone. A
 * sender that stays low is never suspect: the pressure may be low indeed, and LH-PR-2 and LH-PR-3 withhold drive.
 */
public final class SenderMotionCheck {
    private final double bandPa;
    private final double holdPa;
    private final long motionNs;
    private final Span prime = new Span();
    private final Span handOver = new Span();
    private boolean suspect;
    private boolean wasPriming;
    private boolean primeOpen;
    private long testedSinceNs;
    private boolean handOverOpen;
    private boolean alone;
    private long aloneSinceNs;

    public SenderMotionCheck(Calibration calibration) {
        bandPa = calibration.get(Key.SENDER_STUCK_BAND);
        holdPa = calibration.get(Key.HOLD_PRESSURE);
        motionNs = calibration.ns(Key.SENDER_MOTION_TIME);
    }

    /**
     * A prime and the time after it.
     *
     * @param pressurePa line pressure as the sender has it, Pa; NaN while it is lost
     * @param isPriming in PRIME
     * @param test how far the key-on test is
     */
    public void watchPrime(long nowNs, double pressurePa, boolean isPriming, SelfTestState test) {
        boolean begins = isPriming && !wasPriming;
        wasPriming = isPriming;
        if (begins) {
            // The test still shows the result of the key cycle before.
            prime.restart(pressurePa);
            primeOpen = true;
            return;
        }
        prime.take(pressurePa);
        switch (test) {
            case RUNNING -> testedSinceNs = nowNs;
            // A welded relay never let the pump rest, and a test not done never asked it to.
            case FAILED, NOT_DONE -> primeOpen = false;
            case PASSED -> {
                if (primeOpen && nowNs - testedSinceNs >= motionNs && pressurePa >= holdPa) {
                    suspect |= prime.width() < bandPa;
                    primeOpen = false;
                }
            }
        }
    }

    /**
     * A hand-over.
     *
     * @param standingOnElectric the shaft stands and the electric pump carries the line
     * @param internalAlone the internal pump carries the line alone, in a range whose pressure differs
     */
    public void watchHandOver(long nowNs, double pressurePa, boolean standingOnElectric, boolean internalAlone) {
        if (standingOnElectric) {
            handOver.restart(pressurePa);
            handOverOpen = true;
        }
        handOver.take(pressurePa);
        if (internalAlone && !alone) {
            aloneSinceNs = nowNs;
        }
        alone = internalAlone;
        if (alone && handOverOpen && nowNs - aloneSinceNs >= motionNs) {
            suspect |= handOver.width() < bandPa;
            handOverOpen = false;
        }
    }

    public void clearAtKeyOff() {
        suspect = false;
        primeOpen = false;
        handOverOpen = false;
    }

    /** Until key-off. */
    public boolean suspect() {
        return suspect;
    }
}
