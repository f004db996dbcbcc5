package linehold.simulator.window;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.simulator.window.Tolerance.Share;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Newcombe 1998, Statistics in Medicine 17:857–872, Table I, method 3 (score, without correction), 95 %, in public reproductions. */
class WilsonReferenceTest {
    @ParameterizedTest
    @CsvSource({"81, 263, 0.2553, 0.3662", "15, 148, 0.0624, 0.1605", "0, 20, 0.0000, 0.1611", "1, 29, 0.0061, 0.1718"})
    void shouldGiveThePublishedIntervals(int held, int cars, double low, double high) {
        Share share = ToleranceFinder.share(held, cars);

        assertThat(share.share()).isEqualTo(held / (double) cars);
        assertThat(share.low()).isCloseTo(low, within(5e-5));
        assertThat(share.high()).isCloseTo(high, within(5e-5));
    }

    @ParameterizedTest
    @CsvSource({"20", "1000", "10000"})
    void shouldReachTheWholeWhereEveryCarHolds(int cars) {
        Share share = ToleranceFinder.share(cars, cars);

        assertThat(share.share()).isEqualTo(1);
        assertThat(share.high()).isCloseTo(1, within(1e-12));
        // mirrored from the interval of none: n/(n + z²)
        assertThat(share.low()).isCloseTo(cars / (cars + 1.959964 * 1.959964), within(1e-6));
    }
}
