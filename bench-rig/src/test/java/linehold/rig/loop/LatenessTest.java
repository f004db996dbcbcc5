package linehold.rig.loop;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class LatenessTest {
    private final Lateness lateness = new Lateness();

    @Test
    void shouldKnowNothingBeforeTheFirstTick() {
        assertThat(lateness.ticks()).isZero();
        assertThat(lateness.quantileNs(0.999)).isZero();
    }

    @Test
    void shouldGiveQuantilesAsTheUpperEndOfTheirBin() {
        for (int i = 0; i < 999; i++) {
            lateness.add(25_000);
        }
        lateness.add(4_321_000);
        assertThat(lateness.ticks()).isEqualTo(1000);
        assertThat(lateness.count(2)).isEqualTo(999);
        assertThat(lateness.quantileNs(0.5)).isEqualTo(30_000);
        assertThat(lateness.quantileNs(0.999)).isEqualTo(30_000);
        assertThat(lateness.quantileNs(1)).isEqualTo(4_330_000);
        assertThat(lateness.worstNs()).isEqualTo(4_321_000);
    }

    @Test
    void shouldPutWhatIsLaterThanTheLastBinIntoTheLastBin() {
        lateness.add(60_000_000);
        assertThat(lateness.count(lateness.bins() - 1)).isEqualTo(1);
        assertThat(lateness.quantileNs(0.999)).isEqualTo(60_000_000);
    }
}
