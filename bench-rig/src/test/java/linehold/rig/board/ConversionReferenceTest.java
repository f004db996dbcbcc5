package linehold.rig.board;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/**
 * Volts to quantities, against the B-parameter equation R = R25·exp(B·(1/T − 1/298.15 K)) by which IEC 60539-1 defines B;
 * its values here were worked out with a pocket calculator.
 */
class ConversionReferenceTest {
    private static final double SUPPLY = 5;
    private static final double PULL_UP = 1000;

    /** 10 kΩ at 25 °C with B = 3950 K: 33 621 Ω at 0 °C, 3 588 Ω at 50 °C, 933.6 Ω at 90 °C. */
    private final Thermistor thermistor =
            new Thermistor(PULL_UP, new double[] {0, 25, 90}, new double[] {33621, 10000, 933.6});

    private static double volts(double ohm) {
        return SUPPLY * ohm / (ohm + PULL_UP);
    }

    @Test
    void shouldFollowTheBParameterEquationBetweenItsPoints() {
        double b = 3950;
        for (double celsius : new double[] {0, 10, 25, 50, 70, 90}) {
            double ohm = 10000 * Math.exp(b * (1 / (celsius + 273.15) - 1 / 298.15));
            assertThat(thermistor.at(volts(ohm), SUPPLY)).as("%s °C", celsius).isCloseTo(celsius, within(0.02));
        }
        assertThat(thermistor.at(volts(3588), SUPPLY)).isCloseTo(50, within(0.02));
    }

    @Test
    void shouldFollowTheSuppliesRatioNotItsVolts() {
        assertThat(thermistor.at(volts(10000) * 0.9, SUPPLY * 0.9)).isCloseTo(25, within(1e-9));
    }

    @Test
    void shouldHaveNoTemperatureWhereTheWireIsOpenOrShortedOrTheSupplyUnknown() {
        assertThat(thermistor.at(SUPPLY, SUPPLY)).isNaN();
        assertThat(thermistor.at(SUPPLY + 0.01, SUPPLY)).isNaN();
        assertThat(thermistor.at(0, SUPPLY)).isNaN();
        assertThat(thermistor.at(2, Double.NaN)).isNaN();
        assertThat(thermistor.at(2, 0)).isNaN();
    }

    @Test
    void shouldJoinPointsByStraightLinesAndEndThereUnlessTheyGoOn() {
        double[] volts = {0.5, 2.5, 4.5};
        double[] values = {-40, 20, 150};
        Points ends = new Points(volts, values, false);
        Points goesOn = new Points(volts, values, true);

        assertThat(ends.at(0.5, SUPPLY)).isCloseTo(-40, within(1e-12));
        assertThat(ends.at(1.5, SUPPLY)).isCloseTo(-10, within(1e-12));
        assertThat(ends.at(3.5, SUPPLY)).isCloseTo(85, within(1e-12));
        assertThat(ends.at(4.6, SUPPLY)).as("a broken wire").isNaN();
        assertThat(ends.at(0, SUPPLY)).isNaN();
        assertThat(ends.at(Double.NaN, SUPPLY)).isNaN();
        assertThat(goesOn.at(5, SUPPLY)).isCloseTo(182.5, within(1e-12));
        assertThat(goesOn.at(0, SUPPLY)).isCloseTo(-55, within(1e-12));
    }
}
