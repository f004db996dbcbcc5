package linehold.simulator.build;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class QuantitiesTest {

    @ParameterizedTest
    @ValueSource(
            strings = {
                "75 N.m",
                "75 N·m",
                "75 Nm",
                "75N.m",
                "75\u00a0N.m",
                "75\u202fN·m",
                " 75  N.m ",
                "7.5e1 N.m",
                "+75.0 N.m"
            })
    void shouldReadEverySpellingOfOneTorque(String typed) {
        assertThat(Quantities.parse(typed, Quantity.TORQUE)).hasValue(75);
    }

    @ParameterizedTest
    @CsvSource({
        "0.12 Ω, RESISTANCE, 0.12",
        "0.12 \u2126, RESISTANCE, 0.12",
        "5 mΩ, RESISTANCE, 0.005",
        "75 cm², AREA, 0.0075",
        "35 cm³, VOLUME, 35e-6",
        "0.6 l, VOLUME, 0.6e-3",
        "5.0e11 Pa·s²/m⁶, TURBULENT_RESISTANCE, 5e11",
        "5.0e11 Pa.s2/m6, TURBULENT_RESISTANCE, 5e11",
        "4e-9 m³/(s·Pa), VALVE_GAIN, 4e-9",
        "\u221220 °C, TEMPERATURE, -20",
        "20 degC, TEMPERATURE, 20",
        "2.6 mm, LENGTH, 0.0026",
        ".5 mm, LENGTH, 0.0005",
        "3 %, RATIO, 0.03",
        "1.82, RATIO, 1.82",
        "12 bit, RESOLUTION, 12",
    })
    void shouldReadTheVeryDoubleOfTheDigitsTyped(String typed, Quantity quantity, double si) {
        assertThat(Quantities.parse(typed, quantity)).hasValue(si);
    }

    @ParameterizedTest
    @CsvSource({
        "130 psi, 896318.4481",
        "9 bar, 900000",
        "'9,5 bar', ",
        "9, ",
        "9 Bar, ",
        "bar, ",
        "9 bar bar, ",
        "9 9 bar, ",
        "0x9 bar, ",
        "NaN bar, ",
        "1e9999 bar, ",
        "--9 bar, ",
        "'', ",
    })
    void shouldReadAPressureOrNothing(String typed, Double pascal) {
        if (pascal == null) {
            assertThat(Quantities.parse(typed, Quantity.PRESSURE)).isEmpty();
        } else {
            assertThat(Quantities.parse(typed, Quantity.PRESSURE).orElseThrow()).isCloseTo(pascal, within(0.001));
        }
    }

    @ParameterizedTest
    @CsvSource({
        "0.0006, VOLUME, L, 0.6 L",
        "900000, PRESSURE, psi, 130.534 psi",
        "-20, TEMPERATURE, °F, -4 °F",
        "0, TIME, ms, 0 ms",
        "5.0e11, TURBULENT_RESISTANCE, Pa.s2/m6, 5e11 Pa.s2/m6",
        "2.6e-13, SLIP, m3, 2.6e-13 m3",
        "1.82, RATIO, '', 1.82",
        "1234567.4, RATIO, '', 1234567",
    })
    void shouldWriteSevenDigitsWithoutNeedlessZeros(double si, Quantity quantity, String label, String written) {
        assertThat(Quantities.write(si, quantity.unit(label).orElseThrow())).isEqualTo(written);
    }

    @Test
    void shouldSpeakTheUnitsAskedFor() {
        Display metric = new Display(UnitSystem.METRIC);
        Display us = new Display(UnitSystem.US);

        assertThat(metric.pressure(4e5)).isEqualTo("4.00 bar");
        assertThat(us.pressure(4e5)).isEqualTo("58.0 psi");
        assertThat(metric.torque(260)).isEqualTo("260 N·m");
        assertThat(us.torque(260)).isEqualTo("192 lbf·ft");
        assertThat(metric.temperature(-20)).isEqualTo("-20 °C");
        assertThat(us.temperature(-20)).isEqualTo("-4 °F");
        assertThat(metric.flow(1e-4)).isEqualTo("6.00 L/min");
        assertThat(us.flow(1e-4)).isEqualTo("1.59 gal/min");
        assertThat(metric.volume(35e-6)).isEqualTo("35.0 cm³");
        assertThat(us.volume(35e-6)).isEqualTo("2.14 in³");
        assertThat(us.speed(52.36)).isEqualTo("500 rpm");
        assertThat(us.pressureScale().label()).isEqualTo("psi");
        assertThat(us.pressureScale().value(6894.757)).isCloseTo(1.0, within(1e-6));
    }

    @Test
    void shouldPrintMissingAndTinyValuesAsAPersonReadsThem() {
        Display metric = new Display(UnitSystem.METRIC);

        assertThat(metric.pressure(Double.NaN)).isEqualTo("–");
        assertThat(metric.pressure(Double.POSITIVE_INFINITY)).isEqualTo("∞ bar");
        assertThat(metric.pressure(-1)).isEqualTo("0.00 bar");
        assertThat(metric.pressure(-1e5)).isEqualTo("-1.00 bar");
    }
}
