package linehold.simulator.sensor;

import java.util.SplittableRandom;
import linehold.simulator.build.SensorsSpec;

/**
 * A ratiometric pressure sender with its converter: first-order lag, noise, 10 to 90 % of the supply over its range
 * (common practice), quantised.
 *
 * <pre>τ·dx/dt = p − x        V = V_s·(0.1 + 0.8·(x + noise)/p_full)</pre>
 */
public final class PressureSender {
    /** Share of the supply at zero pressure and span over the full scale; common practice (0.5 to 4.5 V of 5 V). */
    public static final double ZERO_FRACTION = 0.1;

    public static final double FULL_SCALE_FRACTION = 0.9;

    private final SensorsSpec spec;
    private final SplittableRandom random;
    private final double stepVolts;
    private final double periodS;
    private double lagFactor;
    private double lagPart;
    private double laggedPa;

    /** @param periodS time between two readings, s */
    public PressureSender(SensorsSpec spec, double periodS, SplittableRandom random) {
        this.spec = spec;
        this.random = random;
        stepVolts = spec.adcFullScaleVolts() / (1L << spec.adcBits());
        this.periodS = periodS;
        setLagFactor(1);
    }

    /** A slow sender: its lag over that of a new one. */
    void setLagFactor(double factor) {
        if (factor != lagFactor) {
            lagFactor = factor;
            double lagS = factor * spec.pressureLagS();
            lagPart = lagS == 0 ? 1 : 1 - StrictMath.exp(-periodS / lagS);
        }
    }

    /** The signal one period after the last reading, V. */
    public double readVolts(double linePa) {
        return readVolts(linePa, 0);
    }

    /** The same where the sender reads too high by {@code offsetPa}. */
    double readVolts(double linePa, double offsetPa) {
        laggedPa += lagPart * (linePa - laggedPa);
        double shownPa = laggedPa + offsetPa + spec.pressureNoisePa() * bell();
        double part = ZERO_FRACTION + (FULL_SCALE_FRACTION - ZERO_FRACTION) * shownPa / spec.pressureFullScalePa();
        double volts = Math.min(1, Math.max(0, part)) * spec.senderSupplyVolts();
        return Math.min(spec.adcFullScaleVolts(), Math.rint(volts / stepVolts) * stepVolts);
    }

    /**
     * A random number of mean 0 and deviation 1: the sum of four uniform ones (Irwin-Hall), in integers, so that every
     * machine draws the same.
     */
    private double bell() {
        long bits = random.nextLong();
        long sum = (bits & 0xFFFF) + (bits >>> 16 & 0xFFFF) + (bits >>> 32 & 0xFFFF) + (bits >>> 48);
        return (sum - 2 * 65535) * (1.7320508075688772 / 65536);
    }
}
