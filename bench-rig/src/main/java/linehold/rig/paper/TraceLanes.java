package linehold.rig.paper;

import java.util.Arrays;
import linehold.simulator.run.Moment;

/** What switched in a run and when: state of the pump, coils, contacts, permission and codes, kept where they change. */
final class TraceLanes {
    // A set for each lane, with a bit for each value that it had.
    private static final int STATE = 0;
    private static final int REASON = 8;
    private static final int DRIVE = 32;
    private static final int MAIN = 40;
    private static final int CONTACT = 42;
    private static final int STANDBY = 44;
    private static final int STANDBY_CONTACT = 46;
    private static final int STATE_BITS = 0xff;
    private static final int REASON_BITS = 0xffffff;
    private static final int TWO_BITS = 3;

    /** A relay's contact counts as live above this share of the supply, as the controller counts it. */
    private final double liveFraction;

    private int length;
    private int[] ticks = new int[64];
    private long[] sets = new long[64];
    private long[] codes = new long[64];

    /**
     * What a stretch of time had. Each lane is a set of what was there, bit by bit: two bits in one place mean that it
     * changed within. All arrays have the same length, and each place lasts until the next.
     *
     * @param t beginning of each place, s
     * @param state ordinals of the pump's state
     * @param reason ordinals of the reason for it
     * @param drive ordinals of the drive permission
     * @param main the main relay's coil: 1 off, 2 energised
     * @param contact the main relay's contact: 1 dead, 2 live
     * @param standby the standby relay's coil: 1 off, 2 energised
     * @param standbyContact the standby relay's contact: 1 dead, 2 live
     * @param codes every code that was active
     */
    public record Part(
            double[] t,
            int[] state,
            int[] reason,
            int[] drive,
            int[] main,
            int[] contact,
            int[] standby,
            int[] standbyContact,
            long[] codes) {}

    TraceLanes(double liveFraction) {
        this.liveFraction = liveFraction;
    }

    void add(int tick, Moment moment) {
        double liveVolts = liveFraction * moment.inputs.busVolts;
        long set = 1L << STATE + moment.outputs.state.ordinal()
                | 1L << REASON + moment.outputs.reason.ordinal()
                | 1L << DRIVE + moment.outputs.permission.ordinal()
                | bit(MAIN, moment.outputs.mainRelayCoil)
                | bit(CONTACT, moment.inputs.mainContactVolts > liveVolts)
                | bit(STANDBY, moment.outputs.standbyRelayCoil)
                | bit(STANDBY_CONTACT, moment.inputs.standbyContactVolts > liveVolts);
        add(tick, set, moment.outputs.activeCodes);
    }

    private static long bit(int lane, boolean on) {
        return 1L << lane + (on ? 1 : 0);
    }

    void add(int tick, long set, long activeCodes) {
        if (length > 0 && sets[length - 1] == set && codes[length - 1] == activeCodes) {
            return;
        }
        if (length == ticks.length) {
            ticks = Arrays.copyOf(ticks, length * 2);
            sets = Arrays.copyOf(sets, length * 2);
            codes = Arrays.copyOf(codes, length * 2);
        }
        ticks[length] = tick;
        sets[length] = set;
        codes[length++] = activeCodes;
    }

    long bytes() {
        return ticks.length * (Integer.BYTES + 2L * Long.BYTES);
    }

    /** @param grain what is shorter, in ticks, is put together, so that the answer is no longer than a screen is wide */
    Part part(int first, int end, int grain, double periodS) {
        Places places = new Places(grain);
        for (int i = Math.max(0, indexAt(first)); i < length && ticks[i] < end; i++) {
            int from = Math.max(first, ticks[i]);
            int to = i + 1 < length ? Math.min(end, ticks[i + 1]) : end;
            places.add(from, to, sets[i], codes[i]);
        }
        return places.end(periodS);
    }

    /** Stretches put together where they are short. */
    private static final class Places {
        private final int grain;
        private final TraceLanes out = new TraceLanes(Double.NaN);
        private int from;
        private int to;
        private long set;
        private long active;

        Places(int grain) {
            this.grain = grain;
        }

        void add(int begin, int end, long one, long oneActive) {
            if (to > from && (to - from >= grain || end - begin >= grain)) {
                give();
            }
            if (to == from) {
                from = begin;
            }
            to = end;
            set |= one;
            active |= oneActive;
        }

        private void give() {
            out.add(from, set, active);
            from = to;
            set = 0;
            active = 0;
        }

        Part end(double periodS) {
            if (to > from) {
                give();
            }
            int count = out.length;
            double[] t = new double[count];
            for (int i = 0; i < count; i++) {
                t[i] = out.ticks[i] * periodS;
            }
            return new Part(
                    t,
                    out.lane(STATE, STATE_BITS),
                    out.lane(REASON, REASON_BITS),
                    out.lane(DRIVE, STATE_BITS),
                    out.lane(MAIN, TWO_BITS),
                    out.lane(CONTACT, TWO_BITS),
                    out.lane(STANDBY, TWO_BITS),
                    out.lane(STANDBY_CONTACT, TWO_BITS),
                    Arrays.copyOf(out.codes, count));
        }
    }

    private int[] lane(int shift, int bits) {
        int[] values = new int[length];
        for (int i = 0; i < length; i++) {
            values[i] = (int) (sets[i] >>> shift) & bits;
        }
        return values;
    }

    /** The tick of the last change of the pump's state before another tick; -1 where there is none. */
    int stateBefore(double tick) {
        for (int i = indexAt((int) Math.ceil(tick) - 1); i > 0; i--) {
            if (stateChanges(i)) {
                return ticks[i];
            }
        }
        return -1;
    }

    /** The tick of the first change of the pump's state after another tick; -1 where there is none. */
    int stateAfter(double tick) {
        for (int i = Math.max(1, indexAt((int) Math.floor(tick)) + 1); i < length; i++) {
            if (stateChanges(i)) {
                return ticks[i];
            }
        }
        return -1;
    }

    private boolean stateChanges(int i) {
        return ((sets[i] ^ sets[i - 1]) >>> STATE & STATE_BITS) != 0;
    }

    /** The place that holds a tick; -1 before the first. */
    private int indexAt(int tick) {
        int found = Arrays.binarySearch(ticks, 0, length, tick);
        return found >= 0 ? found : -found - 2;
    }
}
