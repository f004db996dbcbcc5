package linehold.simulator.drive;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class DecimalsTest {
    private static double parse(String text) {
        char[] buffer = ("9" + text + "9").toCharArray();
        return Decimals.parse(buffer, 1, text.length(), '.', '.');
    }

    /** Against the correctly rounded parser of the JDK. */
    @Test
    void shouldReadTheSameDoubleAsTheJdk() {
        Random random = new Random(20260101);
        for (int i = 0; i < 200_000; i++) {
            double value = (random.nextDouble() - 0.5) * Math.pow(10, random.nextInt(20) - 8);
            String text = switch (i % 3) {
                case 0 -> Double.toString(value);
                case 1 -> String.format(Locale.ROOT, "%." + random.nextInt(12) + "f", value);
                default -> Long.toString((long) value);
            };
            assertThat(parse(text)).as(text).isEqualTo(Double.parseDouble(text));
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "-",
                ".",
                "1.2.3",
                "1,5",
                "abc",
                "0x10",
                "1f",
                "1d",
                "NaN",
                "Infinity",
                "1e999",
                "--1",
                "1e",
                "1 2"
            })
    void shouldReadNoNumberFromNonsense(String text) {
        assertThat(parse(text)).isNaN();
    }

    @Test
    void shouldTakeEitherMarkButNotBoth() {
        assertThat(Decimals.parse("1,5".toCharArray(), 0, 3, '.', ',')).isEqualTo(1.5);
        assertThat(Decimals.parse("1.5".toCharArray(), 0, 3, '.', ',')).isEqualTo(1.5);
        assertThat(Decimals.parse("1.234,5".toCharArray(), 0, 7, '.', ',')).isNaN();
    }
}
