package linehold.rig.adapter.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

class BackOffTest {
    private static BackOff backOff(long seed) {
        return new BackOff(1000, 30_000, new SplittableRandom(seed));
    }

    @Test
    void shouldDoubleUpToItsLimitWithHalfOfItByChance() {
        for (long seed = 0; seed < 200; seed++) {
            BackOff backOff = backOff(seed);
            long fullMs = 1000;
            for (int i = 0; i < 12; i++) {
                assertThat(backOff.nextMs()).as("seed %d, try %d", seed, i).isBetween(fullMs / 2, fullMs);
                fullMs = Math.min(30_000, 2 * fullMs);
            }
        }
    }

    @Test
    void shouldBeTheSameFromTheSameSeedAndAnotherFromAnother() {
        assertThat(waits(backOff(1))).isEqualTo(waits(backOff(1))).isNotEqualTo(waits(backOff(2)));
    }

    private static long[] waits(BackOff backOff) {
        return LongStream.range(0, 8).map(i -> backOff.nextMs()).toArray();
    }

    @Test
    void shouldBeginAgainAfterAGoodConnection() {
        BackOff backOff = backOff(1);
        for (int i = 0; i < 8; i++) {
            backOff.nextMs();
        }
        backOff.reset();
        assertThat(backOff.nextMs()).isLessThanOrEqualTo(1000);
    }
}
