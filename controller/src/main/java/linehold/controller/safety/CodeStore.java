package linehold.controller.safety;

/** The trouble codes that are active now and those that have been since power-up, and what follows from them. */
public final class CodeStore {
    private static final long BOTH_RELAYS = TroubleCode.reactingAtLeast(TroubleCode.Reaction.BOTH_RELAYS);
    private static final long REDUCE_DRIVE = TroubleCode.reactingAtLeast(TroubleCode.Reaction.REDUCE_DRIVE);
    private static final long WARNING = TroubleCode.severeAtLeast(TroubleCode.Severity.WARNING);
    private static final long STOP = TroubleCode.severeAtLeast(TroubleCode.Severity.STOP);

    private long active;
    private long stored;

    /** Takes the verdict of a check; an active code is stored as well. */
    public void set(TroubleCode code, boolean isActive) {
        if (isActive) {
            active |= code.bit();
            stored |= code.bit();
        } else {
            active &= ~code.bit();
        }
    }

    /** Active codes as bits. */
    public long active() {
        return active;
    }

    /** Codes active now or before, as bits. */
    public long stored() {
        return stored;
    }

    public boolean wantsBothRelays() {
        return (active & BOTH_RELAYS) != 0;
    }

    public boolean reducesDrive() {
        return (active & REDUCE_DRIVE) != 0;
    }

    public boolean wantsLamp() {
        return (active & WARNING) != 0;
    }

    public boolean wantsBuzzer() {
        return (active & STOP) != 0;
    }
}
