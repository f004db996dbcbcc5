package linehold.rig.loop;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.tick.TickField;

/**
 * The last ticks, written by the loop and read by any number of others on their own threads. The loop never waits for a
 * reader and allocates nothing; a reader that is too slow finds that rows have been overwritten, and how many.
 */
public final class TickRing {
    private static final TickField[] FIELDS = TickField.values();
    private static final VarHandle ROWS = MethodHandles.arrayElementVarHandle(double[].class);

    private final int capacity;
    private final double[] rows;
    /** Row n is being written while started is n + 1 and finished is n. */
    private volatile long started;

    private volatile long finished;

    /** @param capacity rows kept */
    public TickRing(int capacity) {
        this.capacity = capacity;
        rows = new double[capacity * TickRow.LENGTH];
    }

    /** Called by the loop alone. */
    void publish(long nowNs, long lateNs, long rigFaults, Inputs in, Outputs out) {
        long number = finished;
        started = number + 1;
        VarHandle.fullFence();
        int at = (int) (number % capacity) * TickRow.LENGTH;
        set(at + TickRow.NOW_NS, nowNs);
        set(at + TickRow.LATE_NS, lateNs);
        set(at + TickRow.RIG_FAULTS, rigFaults);
        for (int i = 0; i < FIELDS.length; i++) {
            set(at + TickRow.indexOf(FIELDS[i]), FIELDS[i].get(in, out));
        }
        finished = number + 1;
    }

    private void set(int index, double value) {
        ROWS.setOpaque(rows, index, value);
    }

    /** Rows published since the start; the next one to come has this number. */
    public long published() {
        return finished;
    }

    /** Reads from the rows that are published from now on. */
    public Cursor follow() {
        return new Cursor(finished);
    }

    /** Reads from the oldest row that is still there: from the first one, if the loop has just begun. */
    public Cursor recall() {
        return new Cursor(Math.max(0, finished - capacity));
    }

    /** One reader's place. For one thread. */
    public final class Cursor {
        private long next;
        private long missed;

        private Cursor(long next) {
            this.next = next;
        }

        /**
         * Copies the next row.
         *
         * @param into of {@link TickRow#LENGTH}
         * @return false where there is none yet; {@code into} may then have been overwritten
         */
        public boolean read(double[] into) {
            while (next < finished) {
                int at = (int) (next % capacity) * TickRow.LENGTH;
                for (int i = 0; i < TickRow.LENGTH; i++) {
                    into[i] = (double) ROWS.getOpaque(rows, at + i);
                }
                VarHandle.fullFence();
                long oldest = started - capacity;
                if (next >= oldest) {
                    next++;
                    return true;
                }
                missed += oldest - next;
                next = oldest;
            }
            return false;
        }

        /** Rows that were overwritten before they could be read. */
        public long missed() {
            return missed;
        }
    }
}
