package linehold.simulator.size;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.simulator.build.InstallationSpec.FuseType;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Cable and motor against published tables and worked examples; the fuse only in its order. */
class WiringReferenceTest {
    /** Gauge, mm, mm², Ω/km by ASTM B258 and IEC 60028; Ω per 1000 ft of two public wire tables. */
    @ParameterizedTest
    @CsvSource({
        "10, 2.588, 5.261, 1.00",
        "11, 2.305, 4.172, 1.26",
        "12, 2.053, 3.309, 1.588",
        "13, 1.828, 2.624, 2.003",
        "14, 1.628, 2.081, 2.525",
        "16, 1.291, 1.309, 4.016",
        "18, 1.024, 0.8230, 6.385",
        "20, 0.8118, 0.5176, 10.15",
        "22, 0.6438, 0.3255, 16.14",
        "24, 0.5106, 0.2047, 25.67"
    })
    void shouldGiveTheWireTable(int awg, double mm, double mm2, double ohmPerThousandFeet) {
        assertThat(Copper.gaugeDiameterM(awg) * 1e3).isCloseTo(mm, Percentage.withPercentage(0.05));
        assertThat(Copper.gaugeAreaM2(awg) * 1e6).isCloseTo(mm2, Percentage.withPercentage(0.05));
        assertThat(Copper.resistanceOhm(304.8, Copper.gaugeAreaM2(awg), 20))
                .isCloseTo(ohmPerThousandFeet, Percentage.withPercentage(0.15));
    }

    /** IEC 60028: annealed copper has 0.00393 per kelvin; a power handbook says about 28 % more at 90 °C than at 20 °C. */
    @Test
    void shouldWarmCopperAsTheStandardSays() {
        assertThat(Copper.warm(90)).isCloseTo(1.2751, within(1e-4)).isCloseTo(1.28, within(0.006));
    }

    /** Worked by hand from both standards: 20 A, 5 m there and 5 m back, AWG 12: 1.0422 V at 20 °C, 1.3084 V at 85 °C. */
    @ParameterizedTest
    @CsvSource({"20, 1.0422", "85, 1.3084"})
    void shouldDropTheVoltageOfTheWorkedExample(double copperC, double volts) {
        assertThat(20 * Copper.resistanceOhm(10, Copper.gaugeAreaM2(12), copperC))
                .isCloseTo(volts, within(2e-4));
    }

    /** Kluever, Dynamic Systems, ex. 10-3, through a public course script: 8 V, 0.5 Ω, K 0.05, J 2.5e-4, b 1e-4. */
    @Test
    void shouldStartTheMotorOfATextbookExample() {
        MotorStart start = MotorStart.of(8, 0.5, 0.05, 2.5e-4, 1e-4, 0);
        assertThat(start.timeConstantS()).isCloseTo(0.0490196, within(1e-7));
        assertThat(start.runRadPerS()).isCloseTo(156.863, within(1e-3));
        assertThat(start.timeToS(1 - Math.exp(-4))).isCloseTo(0.19608, within(1e-5));
    }

    /** By hand: 13 V, 0.08 Ω, K 0.05, J 4e-4, 2.0 N·m constant: 40 A, 196.0 rad/s, stall 162.5 A, 12.8 ms, 38.4 ms to 95 %. */
    @Test
    void shouldStartAgainstAConstantLoad() {
        MotorStart start = MotorStart.of(13, 0.08, 0.05, 4e-4, 0, 2.0);
        assertThat(start.runAmps()).isCloseTo(40, within(1e-9));
        assertThat(start.runRadPerS()).isCloseTo(196.0, within(1e-9));
        assertThat(start.stallAmps()).isCloseTo(162.5, within(1e-9));
        assertThat(start.timeConstantS()).isCloseTo(12.8e-3, within(1e-9));
        assertThat(start.timeToS(0.95)).isCloseTo(38.4e-3, within(0.1e-3));
    }

    /** The opening times are from memory, so only what every fuse does is tested: it carries 110 %, and opens the sooner. */
    @ParameterizedTest
    @EnumSource(FuseType.class)
    void shouldOpenTheSoonerTheLargerTheCurrent(FuseType type) {
        FuseCurve fuse = new FuseCurve(type, 20);
        assertThat(fuse.shortestS(22)).isInfinite();
        assertThat(fuse.longestS(26)).isInfinite();
        double shortest = Double.POSITIVE_INFINITY;
        double longest = Double.POSITIVE_INFINITY;
        for (double amps = 23; amps < 200; amps += 0.5) {
            assertThat(fuse.shortestS(amps)).isLessThanOrEqualTo(shortest).isPositive();
            assertThat(fuse.longestS(amps)).isLessThanOrEqualTo(longest).isGreaterThan(fuse.shortestS(amps));
            shortest = fuse.shortestS(amps);
            longest = fuse.longestS(amps);
        }
    }

    /** A current that does not decay uses up the share that its time has of the shortest life. */
    @Test
    void shouldUseUpTheFuseAsFastAsASteadyCurrentDoes() {
        FuseCurve fuse = new FuseCurve(FuseType.BLADE, 20);
        double tau = 0.01;
        assertThat(fuse.startShare(40, 40, tau)).isCloseTo(10 * tau / fuse.shortestS(40), within(1e-9));
        assertThat(fuse.startShare(40, 10, tau)).isLessThan(fuse.startShare(40, 40, tau));
        assertThat(fuse.startShare(20, 10, tau)).isZero();
    }
}
