package linehold.simulator.build;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Unit factors against NIST Special Publication 811, Guide for the Use of the International System of Units (2008),
 * Appendix B.8, "Factors for units listed alphabetically". The table there has seven digits; factors it prints in bold
 * are exact.
 */
class UnitReferenceTest {
    private static final double SEVEN_DIGITS = 5.1e-7;

    @ParameterizedTest
    @CsvSource({
        "PRESSURE, bar, 1.0E+05",
        "PRESSURE, psi, 6.894757E+03",
        "VOLUME, L, 1.0E-03",
        "VOLUME, in3, 1.638706E-05",
        "VOLUME, gal, 3.785412E-03",
        "FLOW, gal/min, 6.309020E-05",
        "ROTATION, rpm, 1.047198E-01",
        "TORQUE, lbf.ft, 1.355818E+00",
        "TORQUE, lbf.in, 1.129848E-01",
        "LENGTH, in, 2.54E-02",
        "AREA, in2, 6.4516E-04",
        "MASS, lb, 4.535924E-01",
        "ROAD_SPEED, mph, 4.4704E-01",
        "ROAD_SPEED, km/h, 2.777778E-01",
        "KINEMATIC_VISCOSITY, cSt, 1.0E-06",
        "ANGLE, deg, 1.745329E-02",
        "TIME, h, 3.6E+03",
        "TIME, min, 6.0E+01",
        "ENERGY, Wh, 3.6E+03",
        "TEMPERATURE_DIFFERENCE, °F, 5.555556E-01",
    })
    void shouldMatchThePublishedFactor(Quantity quantity, String label, double published) {
        double factor = quantity.unit(label).orElseThrow().toSi(1.0);

        assertThat(factor / published).isCloseTo(1.0, within(SEVEN_DIGITS));
    }

    /** Units that the table has no row of: put together from rows it has. */
    @ParameterizedTest
    @CsvSource({
        "FLOW, L/min, 1.0E-03, 6.0E+01",
        "DISPLACEMENT, in3/rev, 1.638706E-05, 1",
        "COMPLIANCE, in3/psi, 1.638706E-05, 6.894757E+03",
        "COMPLIANCE, cm3/bar, 1.0E-06, 1.0E+05",
        "VALVE_GAIN, gal/(min.psi), 6.309020E-05, 6.894757E+03",
        "VALVE_GAIN, L/(min.bar), 1.0E-03, 6.0E+06",
        "ANGULAR_ACCELERATION, rpm/s, 1.047198E-01, 1",
    })
    void shouldMatchTheQuotientOfPublishedFactors(Quantity quantity, String label, double above, double below) {
        double factor = quantity.unit(label).orElseThrow().toSi(1.0);

        assertThat(factor * below / above).isCloseTo(1.0, within(2 * SEVEN_DIGITS));
    }

    /** Fixed points of the scales: NIST SP 811, B.8: t/°C = (t/°F − 32)/1.8 and t/°C = T/K − 273.15. */
    @ParameterizedTest
    @CsvSource({"32 °F, 0", "212 °F, 100", "-40 °F, -40", "180 °F, 82.222222222222222", "273.15 K, 0", "373.15 K, 100"})
    void shouldShiftTheZeroOfATemperature(String typed, double celsius) {
        assertThat(Quantities.parse(typed, Quantity.TEMPERATURE).orElseThrow()).isCloseTo(celsius, within(1e-12));
    }

    @Test
    void shouldNotShiftTheZeroOfATemperatureDifference() {
        assertThat(Quantities.parse("10 °C", Quantity.TEMPERATURE_DIFFERENCE)).hasValue(10);
        assertThat(Quantities.parse("18 °F", Quantity.TEMPERATURE_DIFFERENCE).orElseThrow())
                .isCloseTo(10, within(1e-12));
    }

    @Test
    void shouldTurnOneRevolutionIntoTwoPiRadians() {
        assertThat(Quantities.parse("1 rev/s", Quantity.ROTATION)).hasValue(2 * Math.PI);
        assertThat(Quantities.parse("60 rpm", Quantity.ROTATION).orElseThrow()).isCloseTo(2 * Math.PI, within(1e-15));
        assertThat(Quantities.parse("180 deg", Quantity.ANGLE)).hasValue(Math.PI);
    }

    @ParameterizedTest
    @EnumSource(Quantity.class)
    void shouldComeBackFromEveryUnit(Quantity quantity) {
        for (Unit unit : quantity.units()) {
            for (double value : new double[] {-40, 0, 1, 13.7, 2.5e6}) {
                assertThat(unit.fromSi(unit.toSi(value)))
                        .as("%s %s", value, unit.label())
                        .isCloseTo(value, within(1e-9 * Math.max(1, Math.abs(value))));
            }
        }
    }

    @ParameterizedTest
    @EnumSource(Quantity.class)
    void shouldListTheSiUnitFirst(Quantity quantity) {
        Unit si = quantity.units().get(0);

        assertThat(si.toSi(7.25)).isEqualTo(7.25);
        assertThat(Arrays.asList(si.factor().intValueExact(), si.zero().intValueExact()))
                .containsExactly(1, 0);
    }
}
