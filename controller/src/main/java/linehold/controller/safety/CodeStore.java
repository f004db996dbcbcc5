package linehold.controller.safety;

/**
 * The trouble codes that are active now and those that have been, what follows from them, and what is kept of them
 * (LH-TC-1). Every code has a slot of its own from the start, so that the store is never full and never loses one.
 */
public final class CodeStore implements StoredCodes {
    /** A code is cleared at the key-on that follows this many whole key cycles without it. */
    private static final long CYCLES_TO_CLEAR = 3;
    /** First word of an export: the layout's mark and version. */
    private static final long LAYOUT = 0x4C48_5443_0001L;

    private static final int HEADER = 3;
    private static final int WORDS = 4;

    private static final TroubleCode[] CODES = TroubleCode.values();
    private static final int FRAME = FrozenValue.values().length;
    private static final long BOTH_RELAYS = TroubleCode.reactingAtLeast(TroubleCode.Reaction.BOTH_RELAYS);
    private static final long DOUBT_PUMP = TroubleCode.reactingAtLeast(TroubleCode.Reaction.DOUBT_PUMP);
    private static final long REDUCE_DRIVE = TroubleCode.reactingAtLeast(TroubleCode.Reaction.REDUCE_DRIVE);
    private static final long WITHHOLD = TroubleCode.reactingAtLeast(TroubleCode.Reaction.WITHHOLD_AT_STANDSTILL);
    private static final long WARNING = TroubleCode.severeAtLeast(TroubleCode.Severity.WARNING);
    private static final long STOP = TroubleCode.severeAtLeast(TroubleCode.Severity.STOP);

    private long active;
    private long activeBefore;
    private long stored;
    private long keyCycle;
    private final long[] counts = new long[CODES.length];
    private final long[] firstNs = new long[CODES.length];
    private final long[] lastNs = new long[CODES.length];
    private final long[] lastCycle = new long[CODES.length];
    private final double[] frames = new double[CODES.length * FRAME];

    /** Takes the verdict of a check for this tick. */
    public void set(TroubleCode code, boolean isActive) {
        if (isActive) {
            active |= code.bit();
        } else {
            active &= ~code.bit();
        }
    }

    /** The key was switched on: what has not been active for three whole key cycles is cleared. */
    public void keyOn() {
        keyCycle++;
        for (int i = 0; i < CODES.length; i++) {
            if (keyCycle - lastCycle[i] > CYCLES_TO_CLEAR) {
                stored &= ~(1L << i) | active;
            }
        }
    }

    /**
     * Stores this tick's verdicts.
     *
     * @param frame values by {@link FrozenValue}, kept of a code that is stored for the first time
     */
    public void store(long nowNs, double[] frame) {
        long left = active;
        while (left != 0) {
            int i = Long.numberOfTrailingZeros(left);
            left &= left - 1;
            long bit = 1L << i;
            if ((stored & bit) == 0) {
                counts[i] = 0;
                firstNs[i] = nowNs;
                System.arraycopy(frame, 0, frames, i * FRAME, FRAME);
            }
            if ((stored & bit) == 0 || (activeBefore & bit) == 0) {
                counts[i]++;
            }
            lastNs[i] = nowNs;
            lastCycle[i] = keyCycle;
        }
        stored |= active;
        activeBefore = active;
    }

    /** Active codes as bits. */
    public long active() {
        return active;
    }

    /** Whether a code has come up at this tick. */
    public boolean anyNew() {
        return (active & ~activeBefore) != 0;
    }

    public boolean wantsBothRelays() {
        return (active & BOTH_RELAYS) != 0;
    }

    /** Whether pump current says that the pump fails; drive depends on it where no sender tells the pressure. */
    public boolean doubtsPump() {
        return (active & DOUBT_PUMP) != 0;
    }

    public boolean reducesDrive() {
        return (active & REDUCE_DRIVE) != 0;
    }

    public boolean withholdsAtStandstill() {
        return (active & WITHHOLD) != 0;
    }

    public boolean wantsLamp() {
        return (active & WARNING) != 0;
    }

    public boolean wantsBuzzer() {
        return (active & STOP) != 0;
    }

    @Override
    public long stored() {
        return stored;
    }

    @Override
    public long count(TroubleCode code) {
        return (stored & code.bit()) == 0 ? 0 : counts[code.ordinal()];
    }

    @Override
    public long firstNs(TroubleCode code) {
        return firstNs[code.ordinal()];
    }

    @Override
    public long lastNs(TroubleCode code) {
        return lastNs[code.ordinal()];
    }

    @Override
    public double frozen(TroubleCode code, FrozenValue value) {
        return frames[code.ordinal() * FRAME + value.ordinal()];
    }

    @Override
    public int exportedLongs() {
        return HEADER + WORDS * CODES.length;
    }

    @Override
    public int exportedDoubles() {
        return frames.length;
    }

    @Override
    public void exportTo(long[] longs, double[] doubles) {
        longs[0] = LAYOUT;
        longs[1] = CODES.length;
        longs[2] = keyCycle;
        for (int i = 0; i < CODES.length; i++) {
            int at = HEADER + WORDS * i;
            longs[at] = (stored & 1L << i) == 0 ? 0 : counts[i];
            longs[at + 1] = firstNs[i];
            longs[at + 2] = lastNs[i];
            longs[at + 3] = lastCycle[i];
        }
        System.arraycopy(frames, 0, doubles, 0, frames.length);
    }

    @Override
    public void importFrom(long[] longs, double[] doubles, long laterNs) {
        if (longs.length < HEADER || longs[0] != LAYOUT) {
            throw new IllegalArgumentException("no export of a code store of this layout");
        }
        long known = longs[1];
        boolean fits = known >= 0
                && known <= CODES.length
                && longs.length >= HEADER + WORDS * known
                && doubles.length >= FRAME * known;
        if (!fits) {
            throw new IllegalArgumentException("export of a code store is cut short, or of a later release");
        }
        keyCycle = longs[2];
        stored = 0;
        for (int i = 0; i < known; i++) {
            int at = HEADER + WORDS * i;
            counts[i] = longs[at];
            firstNs[i] = longs[at + 1] + laterNs;
            lastNs[i] = longs[at + 2] + laterNs;
            lastCycle[i] = longs[at + 3];
            stored |= counts[i] > 0 ? 1L << i : 0;
        }
        System.arraycopy(doubles, 0, frames, 0, (int) known * FRAME);
    }
}
