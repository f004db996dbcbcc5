package linehold.simulator.build;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import linehold.controller.calibration.Key;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Values with a spread from car to car: what is read, what is refused, and the cars within them. */
class SpreadsTest {
    private static final String VOLUME = "volume: 0.60 L";

    private static Build parsed(String old, String with) {
        assertThat(GoodFile.TEXT).contains(old);
        return BuildFile.parse("mycar.yaml", GoodFile.TEXT.replace(old, with).getBytes(StandardCharsets.UTF_8));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "0.60 L ± 10 %",
                "0.60 L +- 10%",
                "0.60 L +/- 10 %",
                "0.60 L±60 mL",
                "'0.60 L ± 0.06 L'",
                "600 cm³ ± 60 cm³"
            })
    void shouldReadASpreadHoweverItIsWritten(String typed) {
        Build build = parsed(VOLUME, "volume: " + typed);

        assertThat(build.line().volumeM3()).isEqualTo(0.0006);
        assertThat(build.spreads().all()).hasSize(1);
        Spread spread = build.spreads().all().get(0);
        assertThat(spread.key()).isEqualTo("line.volume");
        assertThat(spread.nominal()).isEqualTo(0.0006);
        assertThat(spread.low()).isCloseTo(0.00054, within(1e-12));
        assertThat(spread.high()).isCloseTo(0.00066, within(1e-12));
        assertThat(spread.at(0.25)).isCloseTo(0.00057, within(1e-12));
    }

    @ParameterizedTest
    @CsvSource({
        "pour-point: -45 °C, pour-point: -45 °C ± 9 °F, -50, -40",
        "pour-point: -45 °C, pour-point: -45 °C ± 3 K, -48, -42",
        "entrained-air: 3 %, entrained-air: 3 % ± 50 %, 0.015, 0.045",
        "entrained-air: 3 %, entrained-air: 3 % ± 0.01, 0.02, 0.04"
    })
    void shouldTakeATemperatureSpreadAsADifferenceAndAPercentageAsAShareOfTheValue(
            String old, String with, double low, double high) {
        Spread spread = parsed(old, with).spreads().all().get(0);

        assertThat(spread.low()).isCloseTo(low, within(1e-9));
        assertThat(spread.high()).isCloseTo(high, within(1e-9));
    }

    @Test
    void shouldHaveNoSpreadWhereTheFileHasNone() {
        assertThat(parsed(VOLUME, VOLUME).spreads().all()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '"', textBlock = """
            volume: 0.60 L | volume: 0.60 L ± 5 bar | 18:11: line.volume: found the spread '5 bar', expected a percentage above 0 such as '5 %', or a volume (m3, L, mL, cm3, in3, gal)
            volume: 0.60 L | volume: 0.60 L ± 5     | 18:11: line.volume: found the spread '5', expected a percentage above 0 such as '5 %', or a volume (m3, L, mL, cm3, in3, gal)
            volume: 0.60 L | volume: 0.60 L ±       | 18:11: line.volume: found the spread '', expected a percentage above 0 such as '5 %', or a volume (m3, L, mL, cm3, in3, gal)
            volume: 0.60 L | volume: 0.60 L ± 0 %   | 18:11: line.volume: found the spread '0 %', expected a percentage above 0 such as '5 %', or a volume (m3, L, mL, cm3, in3, gal)
            volume: 0.60 L | volume: 0.60 L ± -5 %  | 18:11: line.volume: found the spread '-5 %', expected a percentage above 0 such as '5 %', or a volume (m3, L, mL, cm3, in3, gal)
            volume: 0.60 L | volume: 0.60 bar ± 5 % | 18:11: line.volume: found '0.60 bar', expected a volume such as '0.60 L' (m3, L, mL, cm3, in3, gal) between 0.01 L and 20 L
            volume: 0.60 L | volume: 0.60 L ± 99 %  | 18:11: line.volume: found '0.60 L ± 99 %', expected a spread that stays between 0.01 L and 20 L
            pour-point: -45 °C | pour-point: -45 °C ± 5 % | 11:15: oil.pour-point: found the spread '5 %', expected a temperature difference above 0 (K, °C, °F)
            entrained-air: 3 % | entrained-air: 3 % ± much | 15:18: oil.entrained-air: found the spread 'much', expected a percentage above 0 such as '5 %', or a number
            drum-helps: true | drum-helps: true ± 5 % | 79:15: low-band.drum-helps: found 'true ± 5 %', expected true or false
            pulses-per-revolution: 4 | pulses-per-revolution: 4 ± 1 | 123:26: sensors.pulses-per-revolution: found '4 ± 1', expected a whole number such as '4' between 1 and 120
            hold-pressure: 4.0 bar | hold-pressure: 4.0 bar ± 5 % | 138:18: limits.hold-pressure: found '4.0 bar ± 5 %', expected a value without a spread
            switch-on-speed: 700 rpm | switch-on-speed: 700 rpm ± 5 % | 148:20: calibration.switch-on-speed: found '700 rpm ± 5 %', expected a value without a spread
            """)
    void shouldRefuseASpreadThatIsNoneInOneSentence(String old, String with, String sentence) {
        assertThatThrownBy(() -> parsed(old, with))
                .isInstanceOf(InputException.class)
                .hasMessage("mycar.yaml:" + sentence);
    }

    @Test
    void shouldRefuseSpreadsWithinWhichACarContradictsItself() {
        assertThatThrownBy(() -> parsed("touch-pressure: 1.0 bar", "touch-pressure: 1.0 bar ± 0.4 bar"))
                .isInstanceOf(InputException.class)
                .hasMessage("mycar.yaml:73:19: low-band.touch-pressure: found '1.0 bar ± 0.4 bar', expected more than"
                        + " low-band.return-pressure '0.6 bar' (line 72)");
    }

    @Test
    void shouldMakeTheCarOfGivenValuesAndLeaveEverythingElse() {
        Build nominal = parsed(VOLUME, "volume: 0.60 L ± 10 %");
        Build car = nominal.car(new double[] {0.00055});

        assertThat(car.line().volumeM3()).isEqualTo(0.00055);
        assertThat(car.line().structureComplianceM3PerPa())
                .isEqualTo(nominal.line().structureComplianceM3PerPa());
        assertThat(car.oil()).isEqualTo(nominal.oil());
        assertThat(car.spreads().all()).isEmpty();
        assertThat(nominal.line().volumeM3()).isEqualTo(0.0006);
    }

    @Test
    void shouldCalibrateTheControllerForTheNominalCar() {
        Build nominal = parsed("pressure-full-scale: 20 bar", "pressure-full-scale: 20 bar ± 5 %");
        Build car = nominal.car(new double[] {21e5});

        assertThat(car.sensors().pressureFullScalePa()).isEqualTo(21e5);
        assertThat(car.calibration().get(Key.SENDER_FULL_SCALE)).isEqualTo(20e5);

        Build lining = parsed("friction-coefficient: 0.12", "friction-coefficient: 0.12 ± 10 %");
        Build worn = lining.car(new double[] {0.108});
        assertThat(worn.element(Element.LOW_BAND).frictionCoefficient()).isEqualTo(0.108);
        assertThat(worn.calibration().get(Key.FIRST_TORQUE_PER_PRESSURE))
                .isEqualTo(lining.calibration().get(Key.FIRST_TORQUE_PER_PRESSURE));
    }

    @ParameterizedTest
    @ValueSource(strings = {"demonstration", "rule-of-thumb"})
    void shouldGiveTheNominalCarBackForNominalValues(String name) {
        Build build = BuildFile.loadNamed(name);
        double[] si =
                build.spreads().all().stream().mapToDouble(Spread::nominal).toArray();
        Build car = build.car(si);

        assertThat(si.length).isGreaterThan(20);
        assertThat(car.oil()).isEqualTo(build.oil());
        assertThat(car.line()).isEqualTo(build.line());
        assertThat(car.electricPump()).isEqualTo(build.electricPump());
        assertThat(car.elements()).isEqualTo(build.elements());
        assertThat(car.sensors()).isEqualTo(build.sensors());
        assertThat(car.calibration()).isSameAs(build.calibration());
    }

    @Test
    void shouldWantAValueForEverySpread() {
        Build build = Builds.demonstration();
        assertThatThrownBy(() -> build.car(new double[0])).isInstanceOf(IllegalArgumentException.class);
    }
}
