package linehold.controller.calibration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Locale;
import org.junit.jupiter.api.Test;

class QuantityTest {
    @Test
    void shouldSpeakTheUnitsThatPeopleType() {
        assertThat(Quantity.SPEED.text(500 * Math.PI / 30)).isEqualTo("500 rpm");
        assertThat(Quantity.PRESSURE.text(4.25e5)).isEqualTo("4.25 bar");
        assertThat(Quantity.ANGULAR_ACCELERATION.text(Math.PI)).isEqualTo("30 rpm/s");
        assertThat(Quantity.TORQUE_PER_PRESSURE.text(2.6e-4)).isEqualTo("26 N·m/bar");
        assertThat(Quantity.TIME.text(0.005)).isEqualTo("0.005 s");
        assertThat(Quantity.COUNT.text(100)).isEqualTo("100");
        assertThat(Quantity.TIME.text(0)).isEqualTo("0 s");
        assertThat(Quantity.FLAG.text(1)).isEqualTo("yes");
        assertThat(Quantity.FLAG.text(0)).isEqualTo("no");
        assertThat(Quantity.FLAG.text(2)).isEqualTo("2");
    }

    @Test
    void shouldKeepTheExponentOfVerySmallNumbers() {
        assertThat(Quantity.TIME.text(1.5e-8)).isEqualTo("1.50000e-08 s");
    }

    @Test
    void shouldNotDependOnTheLocale() {
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.GERMANY);
            assertThat(Quantity.PRESSURE.text(4.25e5)).isEqualTo("4.25 bar");
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void shouldNameItsUnits() {
        for (Quantity quantity : Quantity.values()) {
            assertThat(quantity.shownUnit().isEmpty())
                    .isEqualTo(quantity.siUnit().isEmpty());
        }
        assertThat(Quantity.SPEED.siUnit()).isEqualTo("rad/s");
        assertThat(Double.parseDouble(Quantity.SPEED.text(1).replace(" rpm", "")))
                .isCloseTo(9.5493, within(1e-4));
    }
}
