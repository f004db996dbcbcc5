package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.signal.Occurrences;

/** LH-SP-2: too many rejected edges within a minute. */
public final class NoisyPickupCheck {
    private static final long MINUTE_NS = 60_000_000_000L;

    private final int most;
    private final Occurrences rejections;
    private boolean active;

    public NoisyPickupCheck(Calibration calibration) {
        most = (int) calibration.get(Key.REJECTED_EDGES_PER_MINUTE);
        rejections = new Occurrences(most, MINUTE_NS);
    }

    /** Takes the number of edges rejected at this tick. */
    public void update(long nowNs, int rejectedNow) {
        int countable = Math.min(rejectedNow, most + 1);
        for (int i = 0; i < countable; i++) {
            rejections.add(nowNs);
        }
        active = rejections.tooMany(nowNs);
    }

    public boolean active() {
        return active;
    }
}
