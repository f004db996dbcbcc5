package linehold.rig.loop;

import java.util.concurrent.atomic.AtomicReference;
import linehold.controller.Controller;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.safety.StoredCodes;
import linehold.controller.switching.PumpState;

/**
 * The controller, and a copy of its stored codes for a thread that keeps them over a loss of power. The loop makes a copy
 * at each tick that changes a code or begins a key cycle, and every few seconds while a code is active; it waits for nobody
 * and allocates nothing.
 */
public final class KeptCodes implements Decision {
    /** The codes as they were at one tick, in the form of {@link StoredCodes#exportTo}. */
    public static final class Copy {
        private final long[] longs;
        private final double[] doubles;
        private long atNs;
        private boolean fresh;

        private Copy(StoredCodes codes) {
            longs = new long[codes.exportedLongs()];
            doubles = new double[codes.exportedDoubles()];
        }

        public long[] longs() {
            return longs;
        }

        public double[] doubles() {
            return doubles;
        }

        /** Time of the tick, ns, on the rig's clock. */
        public long atNs() {
            return atNs;
        }
    }

    /** When a code was last active is known so well, ns. */
    private static final long LAST_ACTIVE_NS = 10_000_000_000L;

    private final Controller controller;
    private final AtomicReference<Copy> latest;
    private Copy filling;
    private Copy taken;
    private long activeCodes;
    private long storedCodes;
    private PumpState state = PumpState.OFF;
    private long copiedNs;

    public KeptCodes(Controller controller) {
        this.controller = controller;
        StoredCodes codes = controller.storedCodes();
        latest = new AtomicReference<>(new Copy(codes));
        filling = new Copy(codes);
        taken = new Copy(codes);
        storedCodes = codes.stored();
    }

    @Override
    public void step(long nowNs, Inputs in, Outputs out) {
        controller.step(nowNs, in, out);
        boolean changed = out.activeCodes != activeCodes || out.storedCodes != storedCodes || out.state != state;
        if (changed || activeCodes != 0 && nowNs - copiedNs >= LAST_ACTIVE_NS) {
            copiedNs = nowNs;
            activeCodes = out.activeCodes;
            storedCodes = out.storedCodes;
            state = out.state;
            controller.storedCodes().exportTo(filling.longs, filling.doubles);
            filling.atNs = nowNs;
            filling.fresh = true;
            filling = latest.getAndSet(filling);
        }
    }

    /**
     * The latest copy. For one thread, which may read it until it takes the next one.
     *
     * @return null where nothing has changed since the last one was taken
     */
    public Copy take() {
        if (!latest.get().fresh) {
            return null;
        }
        taken.fresh = false;
        taken = latest.getAndSet(taken);
        return taken;
    }
}
