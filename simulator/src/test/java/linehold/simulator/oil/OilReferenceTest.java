package linehold.simulator.oil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.simulator.build.OilSpec;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Oil properties against a worked sheet and against values computed independently from the published equation. */
class OilReferenceTest {
    private static final OilSpec OIL = new OilSpec(35e-6, 7.4e-6, -45, 870, 7e-4, 1.5e9, 0.03);

    /** A public worked sheet of ASTM D341: 32 mm²/s at 40 °C, 5.4 at 100 °C, T = t + 273, prints 8.5 mm²/s at 80 °C. */
    @Test
    void shouldGiveTheViscosityOfTheWorkedSheet() {
        WaltherViscosity oil = new WaltherViscosity(40, 32e-6, 100, 5.4e-6);
        assertThat(oil.kinematicM2PerS(80) * 1e6).isCloseTo(8.5, within(0.05));
    }

    /** The same with T = t + 273.15, computed independently. */
    @Test
    void shouldGiveTheConstantsOfTheEquation() {
        WaltherViscosity oil = new WaltherViscosity(40, 32e-6, 100, 5.4e-6);
        assertThat(oil.a()).isCloseTo(9.5308, within(1e-4));
        assertThat(oil.b()).isCloseTo(3.7466, within(1e-4));
        assertThat(oil.kinematicM2PerS(80) * 1e6).isCloseTo(8.5332, within(1e-4));
    }

    /** Two classes of transmission oil, from the equation of ASTM D341 computed independently. */
    @ParameterizedTest
    @CsvSource({
        "35, 7.4, -20, 943.6",
        "35, 7.4, 0, 227.3",
        "35, 7.4, 20, 78.70",
        "35, 7.4, 40, 35",
        "35, 7.4, 60, 18.571",
        "35, 7.4, 80, 11.189",
        "35, 7.4, 100, 7.4",
        "35, 7.4, 120, 5.249",
        "35, 7.4, 150, 3.454",
        "29, 5.9, -20, 997.4",
        "29, 5.9, 0, 211.1",
        "29, 5.9, 20, 67.91",
        "29, 5.9, 60, 15.053",
        "29, 5.9, 80, 8.967",
        "29, 5.9, 120, 4.178",
        "29, 5.9, 150, 2.753",
    })
    void shouldGiveTheViscosityOfTabulatedOils(double at40, double at100, double celsius, double mm2PerS) {
        WaltherViscosity oil = new WaltherViscosity(40, at40 * 1e-6, 100, at100 * 1e-6);
        assertThat(oil.kinematicM2PerS(celsius) * 1e6).isCloseTo(mm2PerS, Percentage.withPercentage(0.1));
    }

    /** 870 kg/m³ at 15 °C, 7e-4 1/K: the quotient form ρ15/(1 + α·ΔT) gives 832.14 kg/m³ at 80 °C, the linear one less. */
    @Test
    void shouldGiveADensityCloseToTheQuotientForm() {
        Oil oil = new Oil(OIL, 80);
        assertThat(oil.densityKgPerM3()).isCloseTo(832.14, Percentage.withPercentage(0.25));
        assertThat(new Oil(OIL, 15).densityKgPerM3()).isEqualTo(870);
    }

    /** μ = ν·ρ with ν(80 °C) = 11.189 mm²/s as above. */
    @Test
    void shouldGiveTheDynamicViscosity() {
        assertThat(new Oil(OIL, 80).viscosityPaS()).isCloseTo(11.189e-6 * 832.14, Percentage.withPercentage(0.35));
    }

    @Test
    void shouldFlagWhatTheEquationWasNotMadeFor() {
        Oil oil = new Oil(OIL, -45);
        assertThat(oil.isExtrapolated()).isFalse();
        oil.setTemperatureC(-45.1);
        assertThat(oil.isExtrapolated()).as("below the pour point").isTrue();
        oil.setTemperatureC(250);
        assertThat(oil.isExtrapolated()).as("thinner than 2 mm²/s").isTrue();
        assertThat(oil.temperatureC()).isEqualTo(250);
    }
}
