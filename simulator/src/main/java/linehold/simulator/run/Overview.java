package linehold.simulator.run;

/**
 * A whole run in a bounded number of time slots of equal length, each with the extremes within it. All arrays have the
 * same length.
 *
 * @param slotS length of one slot, s; slot i covers {@code [i·slotS, (i+1)·slotS)}
 * @param pressureMinPa lowest line pressure, Pa
 * @param pressureMaxPa highest line pressure, Pa
 * @param speedMinRadPerS lowest shaft speed, rad/s
 * @param speedMaxRadPerS highest shaft speed, rad/s
 * @param pumpOnShare share of the slot with the electric pump's contact closed, 0 to 1
 * @param engagedShare share of the slot with an apply element engaged, 0 to 1
 */
public record Overview(
        double slotS,
        double[] pressureMinPa,
        double[] pressureMaxPa,
        double[] speedMinRadPerS,
        double[] speedMaxRadPerS,
        double[] pumpOnShare,
        double[] engagedShare) {}
