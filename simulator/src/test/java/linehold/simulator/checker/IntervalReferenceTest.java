package linehold.simulator.checker;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Interval arithmetic against exact decimal arithmetic ({@link BigDecimal}): every result must enclose the exact one. */
class IntervalReferenceTest {
    private static final MathContext MANY_DIGITS = new MathContext(60);

    @Test
    void shouldEncloseTheExactResultOfEveryOperation() {
        SplittableRandom random = new SplittableRandom(50);
        for (int i = 0; i < 20_000; i++) {
            double x = number(random);
            double y = number(random);
            Interval a = around(x, random);
            Interval b = around(y, random);
            BigDecimal exactX = new BigDecimal(x);
            BigDecimal exactY = new BigDecimal(y);
            encloses(a.plus(b), exactX.add(exactY));
            encloses(a.minus(b), exactX.subtract(exactY));
            encloses(a.times(b), exactX.multiply(exactY));
            if (b.low() > 0 || b.high() < 0) {
                encloses(a.over(b), exactX.divide(exactY, MANY_DIGITS));
            }
            if (x > 0) {
                encloses(a.root(), exactX.sqrt(MANY_DIGITS));
            }
        }
    }

    @Test
    void shouldEncloseKnownLogarithmsAndPowers() {
        // log10(2) to 30 digits: CRC Standard Mathematical Tables
        BigDecimal log2 = new BigDecimal("0.301029995663981195213738894724");
        encloses(Interval.of(2).log10(), log2);
        Interval back = new Interval(0.30102999566398114, 0.30102999566398125).pow10();
        encloses(back, new BigDecimal(2));
        assertThat(back.high() - back.low()).isLessThan(1e-14);
    }

    @Test
    void shouldRefuseWhatIsNoInterval() {
        assertThatThrownBy(() -> new Interval(1, 0)).isInstanceOf(ArithmeticException.class);
        assertThatThrownBy(() -> Interval.of(Double.NaN)).isInstanceOf(ArithmeticException.class);
        assertThatThrownBy(() -> Interval.of(1).over(new Interval(-1, 1))).isInstanceOf(ArithmeticException.class);
    }

    private static double number(SplittableRandom random) {
        return (random.nextDouble() - 0.5) * Math.pow(10, random.nextInt(24) - 12);
    }

    private static Interval around(double x, SplittableRandom random) {
        double width = random.nextBoolean() ? 0 : Math.abs(x) * random.nextDouble();
        return new Interval(x - width, x + width);
    }

    private static void encloses(Interval interval, BigDecimal exact) {
        assertThat(new BigDecimal(interval.low())).isLessThanOrEqualTo(exact);
        assertThat(new BigDecimal(interval.high())).isGreaterThanOrEqualTo(exact);
    }
}
