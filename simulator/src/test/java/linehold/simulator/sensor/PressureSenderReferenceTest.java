package linehold.simulator.sensor;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import linehold.simulator.build.SensorsSpec;
import org.junit.jupiter.api.Test;

/**
 * Ratiometric senders give 10 to 90 % of their supply over their range (sender makers' data sheets: 0.5 V at zero and
 * 4.5 V at full scale on a 5 V supply).
 */
class PressureSenderReferenceTest {
    private static SensorsSpec spec(double lagS, double noisePa, int bits) {
        return new SensorsSpec(4, 2e6, lagS, noisePa, 5, bits, 5, true, true, true, true, true);
    }

    private static PressureSender sender(double lagS, double noisePa, int bits) {
        return new PressureSender(spec(lagS, noisePa, bits), 0.005, new SplittableRandom(1));
    }

    @Test
    void shouldGiveHalfAVoltAtZeroAndFourAndAHalfAtFullScale() {
        assertThat(sender(0, 0, 24).readVolts(0)).isCloseTo(0.5, within(1e-6));
        assertThat(sender(0, 0, 24).readVolts(1e6)).isCloseTo(2.5, within(1e-6));
        assertThat(sender(0, 0, 24).readVolts(2e6)).isCloseTo(4.5, within(1e-6));
    }

    @Test
    void shouldReachOneMinusOneOverEAfterOneLag() {
        PressureSender sender = sender(0.005, 0, 24);
        assertThat(sender.readVolts(1e6)).isCloseTo(0.5 + 2 * (1 - Math.exp(-1)), within(1e-6));
    }

    @Test
    void shouldStepByOneLeastSignificantBit() {
        double step = 5.0 / 4096;
        double volts = sender(0, 0, 12).readVolts(777_777);
        assertThat(volts / step).isCloseTo(Math.rint(volts / step), within(1e-9));
        assertThat(volts).isCloseTo(0.5 + 4 * 777_777 / 2e6, within(step / 2 + 1e-12));
    }

    @Test
    void shouldHaveTheNoiseItIsAskedFor() {
        PressureSender sender = sender(0, 2000, 24);
        double sum = 0;
        double squares = 0;
        int n = 100_000;
        for (int i = 0; i < n; i++) {
            double pa = (sender.readVolts(1e6) - 0.5) / 4 * 2e6 - 1e6;
            sum += pa;
            squares += pa * pa;
        }
        // Standard errors: of the mean 2000/√n = 6.3 Pa, of the deviation about 2000/√(2n) = 4.5 Pa; four of each.
        assertThat(sum / n).isCloseTo(0, within(26.0));
        assertThat(Math.sqrt(squares / n)).isCloseTo(2000, within(18.0));
    }
}
