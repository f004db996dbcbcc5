package linehold.simulator.run;

import java.util.Arrays;

/**
 * Keeps a whole run in a bounded number of time slots. It does not know the length beforehand: when the slots are full
 * neighbours are merged and the slots grow twice as long.
 */
public final class OverviewRecorder implements TickListener {
    private static final int MOST_SLOTS = 800;

    private final double[] pressureMinPa = filled(Double.POSITIVE_INFINITY);
    private final double[] pressureMaxPa = filled(Double.NEGATIVE_INFINITY);
    private final double[] speedMin = filled(Double.POSITIVE_INFINITY);
    private final double[] speedMax = filled(Double.NEGATIVE_INFINITY);
    private final int[] ticks = new int[MOST_SLOTS];
    private final int[] pumpTicks = new int[MOST_SLOTS];
    private final int[] engagedTicks = new int[MOST_SLOTS];
    private final double periodS;
    private int ticksPerSlot = 1;
    private int slot;

    /** @param periodS time between two ticks, s */
    public OverviewRecorder(double periodS) {
        this.periodS = periodS;
    }

    @Override
    public boolean tick(Moment moment) {
        if (ticks[slot] == ticksPerSlot && ++slot == MOST_SLOTS) {
            merge();
        }
        int i = slot;
        ticks[i]++;
        pressureMinPa[i] = Math.min(pressureMinPa[i], moment.lowestPressurePa);
        pressureMaxPa[i] = Math.max(pressureMaxPa[i], moment.linePressurePa);
        speedMin[i] = Math.min(speedMin[i], moment.shaftRadPerS);
        speedMax[i] = Math.max(speedMax[i], moment.shaftRadPerS);
        pumpTicks[i] += moment.contactClosed ? 1 : 0;
        engagedTicks[i] += moment.engagement == Engagement.ENGAGED ? 1 : 0;
        return true;
    }

    private void merge() {
        for (int i = 0; i < MOST_SLOTS / 2; i++) {
            int a = 2 * i;
            int b = a + 1;
            pressureMinPa[i] = Math.min(pressureMinPa[a], pressureMinPa[b]);
            pressureMaxPa[i] = Math.max(pressureMaxPa[a], pressureMaxPa[b]);
            speedMin[i] = Math.min(speedMin[a], speedMin[b]);
            speedMax[i] = Math.max(speedMax[a], speedMax[b]);
            ticks[i] = ticks[a] + ticks[b];
            pumpTicks[i] = pumpTicks[a] + pumpTicks[b];
            engagedTicks[i] = engagedTicks[a] + engagedTicks[b];
        }
        slot = MOST_SLOTS / 2;
        Arrays.fill(pressureMinPa, slot, MOST_SLOTS, Double.POSITIVE_INFINITY);
        Arrays.fill(pressureMaxPa, slot, MOST_SLOTS, Double.NEGATIVE_INFINITY);
        Arrays.fill(speedMin, slot, MOST_SLOTS, Double.POSITIVE_INFINITY);
        Arrays.fill(speedMax, slot, MOST_SLOTS, Double.NEGATIVE_INFINITY);
        Arrays.fill(ticks, slot, MOST_SLOTS, 0);
        Arrays.fill(pumpTicks, slot, MOST_SLOTS, 0);
        Arrays.fill(engagedTicks, slot, MOST_SLOTS, 0);
        ticksPerSlot *= 2;
    }

    public Overview overview() {
        int length = ticks[slot] > 0 ? slot + 1 : slot;
        return new Overview(
                ticksPerSlot * periodS,
                Arrays.copyOf(pressureMinPa, length),
                Arrays.copyOf(pressureMaxPa, length),
                Arrays.copyOf(speedMin, length),
                Arrays.copyOf(speedMax, length),
                shares(pumpTicks, length),
                shares(engagedTicks, length));
    }

    private double[] shares(int[] counts, int length) {
        double[] shares = new double[length];
        for (int i = 0; i < length; i++) {
            shares[i] = (double) counts[i] / ticks[i];
        }
        return shares;
    }

    private static double[] filled(double value) {
        double[] array = new double[MOST_SLOTS];
        Arrays.fill(array, value);
        return array;
    }
}
