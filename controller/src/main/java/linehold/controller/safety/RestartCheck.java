package linehold.controller.safety;

/**
 * LH-SW-9: a unit that has just started knows nothing of the shaft. Where the shaft turns before it was once seen at rest,
 * the unit has restarted in a moving car: its clutches may be engaged, so the pump must run, with the key off, too. Once
 * rest was seen, a shaft that turns with the key off (pushed by hand, or noise on the pickup) starts nothing: nobody who
 * works at the car must be surprised by oil under pressure.
 */
public final class RestartCheck {
    private boolean restSeen;
    private boolean restarted;

    /**
     * @param turning the shaft turns faster than standstill speed
     * @param atRest no edge came for as long as one pulse takes at standstill speed
     */
    public void update(boolean turning, boolean atRest) {
        restarted |= turning && !restSeen;
        restSeen |= atRest;
    }

    public void clearAtKeyOff() {
        restarted = false;
    }

    /** Until key-off at standstill. */
    public boolean restarted() {
        return restarted;
    }
}
