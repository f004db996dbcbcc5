package linehold.controller.safety;

import linehold.controller.signal.Confirmation;

/**
 * What is known of one pump relay's contact, in terms of the pump, so that its wiring (LH-RL-6) does not matter. LH-RL-1:
 * it does not close. LH-RL-2: it does not open; on one wire that cannot be told from the other contact, so every contact
 * that was closed since the wire was last seen dead is suspected.
 */
final class RelayCheck {
    private final Confirmation notClosing;
    private boolean stuckOff;
    /** Closed since the wire was last seen dead; true at power-up, when nothing has been seen. */
    private boolean closedSinceDead = true;

    private boolean welded;

    /** @param readbackNs how long after switching on there may be no voltage, ns */
    RelayCheck(long readbackNs) {
        notClosing = new Confirmation(readbackNs, 0);
    }

    /**
     * @param on whether this relay shall feed the pump
     * @param open whether nothing shows a closed contact
     */
    void update(long nowNs, boolean on, boolean open) {
        // Latched: the other relay's voltage on the same wire would acquit this one.
        stuckOff |= notClosing.update(on && open, nowNs);
        closedSinceDead |= on;
    }

    /** The key-on test has found that the contact does not close. */
    void testedStuckOff() {
        stuckOff = true;
    }

    /** With no relay on, voltage stayed behind the contacts for longer than the pump coasts. */
    void voltageStays() {
        welded |= closedSinceDead;
    }

    /** With no relay on, there is no voltage: this contact is open. */
    void wireIsDead() {
        closedSinceDead = false;
        welded = false;
    }

    /** The finding rested on a broken readback, or the key is off. */
    void acquit() {
        stuckOff = false;
    }

    /** LH-RL-1, until key-off. */
    boolean stuckOff() {
        return stuckOff;
    }

    /** LH-RL-2, until the contacts are seen open. */
    boolean welded() {
        return welded;
    }
}
