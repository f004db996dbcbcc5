package linehold.rig.board;

import java.util.Arrays;
import java.util.stream.Collectors;

/**
 * Full scale of a converter's channel. The usual 16-bit converter on I2C with four channels has these six; its number 0
 * to 32767 spans 0 V to full scale.
 */
public enum Gain {
    V6_144(0, 6.144),
    V4_096(1, 4.096),
    V2_048(2, 2.048),
    V1_024(3, 1.024),
    V0_512(4, 0.512),
    V0_256(5, 0.256);

    private static final double STEPS = 32768;

    private final int code;
    private final double fullScaleVolts;

    Gain(int code, double fullScaleVolts) {
        this.code = code;
        this.fullScaleVolts = fullScaleVolts;
    }

    /** The three bits of the configuration register. */
    public int code() {
        return code;
    }

    /** V. */
    public double fullScaleVolts() {
        return fullScaleVolts;
    }

    /**
     * What the converter's number means, V.
     *
     * @param number signed, as it stands in the conversion register
     */
    public double volts(int number) {
        return number * (fullScaleVolts / STEPS);
    }

    static Gain of(double volts) {
        return Arrays.stream(values())
                .filter(gain -> Math.abs(gain.fullScaleVolts - volts) < 1e-9)
                .findFirst()
                .orElse(null);
    }

    /** {@code 6.144 V, 4.096 V …}, for a message. */
    static String labels() {
        return Arrays.stream(values()).map(gain -> gain.fullScaleVolts + " V").collect(Collectors.joining(", "));
    }
}
