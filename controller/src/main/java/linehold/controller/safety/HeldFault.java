package linehold.controller.safety;

import linehold.controller.signal.Confirmation;

/**
 * A finding that may restrict drive. It is active as soon as the bad is seen; it is released only when the good has been
 * seen for the return time and the driver has let go, so that torque never returns by itself under a pressed pedal.
 * Seeing neither (the pump is off) changes nothing.
 */
final class HeldFault {
    private final Confirmation back;
    private boolean active;

    /** @param returnNs how long the good must be seen, ns */
    HeldFault(long returnNs) {
        back = new Confirmation(returnNs, 0);
    }

    void update(long nowNs, boolean bad, boolean good, boolean letGo) {
        boolean goodForLong = back.update(good && !bad, nowNs);
        if (bad) {
            active = true;
        } else if (goodForLong && letGo) {
            active = false;
        }
    }

    void clear() {
        active = false;
    }

    boolean active() {
        return active;
    }
}
