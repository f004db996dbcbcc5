package linehold.rig.paper;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Lowest and highest pressure and speed of blocks of ticks: of 64, of 128, and so on up to the whole run. */
final class Extremes {
    /** A block of the lowest level has two to this power of ticks. */
    static final int BASE_SHIFT = 6;

    private static final int BASE_TICKS = 1 << BASE_SHIFT;
    /** Lowest and highest pressure, Pa, lowest and highest speed, rad/s. */
    private static final int FIELDS = 4;

    private final List<float[]> levels = new ArrayList<>();
    private float[] base = new float[FIELDS << 10];
    private int blocks;
    private int ticks;
    private final Span open = new Span();

    /** Extremes while they are looked for. */
    static final class Span {
        float pLow;
        float pHigh;
        float nLow;
        float nHigh;

        Span() {
            clear();
        }

        void clear() {
            pLow = nLow = Float.POSITIVE_INFINITY;
            pHigh = nHigh = Float.NEGATIVE_INFINITY;
        }

        void add(float pressurePa, float speedRadPerS) {
            pLow = Math.min(pLow, pressurePa);
            pHigh = Math.max(pHigh, pressurePa);
            nLow = Math.min(nLow, speedRadPerS);
            nHigh = Math.max(nHigh, speedRadPerS);
        }

        private void add(float[] level, int block) {
            int at = block * FIELDS;
            pLow = Math.min(pLow, level[at]);
            pHigh = Math.max(pHigh, level[at + 1]);
            nLow = Math.min(nLow, level[at + 2]);
            nHigh = Math.max(nHigh, level[at + 3]);
        }

        private void put(float[] level, int block) {
            int at = block * FIELDS;
            level[at] = pLow;
            level[at + 1] = pHigh;
            level[at + 2] = nLow;
            level[at + 3] = nHigh;
        }
    }

    void add(float pressurePa, float speedRadPerS) {
        open.add(pressurePa, speedRadPerS);
        if (++ticks == BASE_TICKS) {
            closeBlock();
        }
    }

    private void closeBlock() {
        if ((blocks + 1) * FIELDS > base.length) {
            base = Arrays.copyOf(base, base.length * 2);
        }
        open.put(base, blocks++);
        open.clear();
        ticks = 0;
    }

    /** After the last tick, before the first question. */
    void end() {
        if (ticks > 0) {
            closeBlock();
        }
        base = Arrays.copyOf(base, blocks * FIELDS);
        levels.add(base);
        for (int count = blocks; count > 1; count = (count + 1) / 2) {
            float[] below = levels.get(levels.size() - 1);
            float[] level = new float[(count + 1) / 2 * FIELDS];
            for (int i = 0; i < count; i += 2) {
                open.add(below, i);
                if (i + 1 < count) {
                    open.add(below, i + 1);
                }
                open.put(level, i / 2);
                open.clear();
            }
            levels.add(level);
        }
    }

    long bytes() {
        return 2L * base.length * Float.BYTES;
    }

    /** Adds a block of two to the power of {@code shift} ticks, at least {@link #BASE_SHIFT}. */
    void addBlock(int shift, long block, Span into) {
        into.add(levels.get(shift - BASE_SHIFT), (int) block);
    }
}
