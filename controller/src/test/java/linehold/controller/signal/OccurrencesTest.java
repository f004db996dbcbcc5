package linehold.controller.signal;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class OccurrencesTest {
    @Test
    void shouldAllowTheStatedNumberWithinTheWindowAndNoMore() {
        Occurrences occurrences = new Occurrences(2, 100);
        occurrences.add(0);
        assertThat(occurrences.tooMany(0)).isFalse();
        occurrences.add(10);
        assertThat(occurrences.tooMany(10)).isFalse();
        occurrences.add(20);

        assertThat(occurrences.tooMany(20)).isTrue();
        assertThat(occurrences.tooMany(99)).isTrue();
        assertThat(occurrences.tooMany(100)).isFalse();
    }

    @Test
    void shouldSlideTheWindow() {
        Occurrences occurrences = new Occurrences(2, 100);
        for (long time = 0; time < 1000; time += 50) {
            occurrences.add(time);
            assertThat(occurrences.tooMany(time)).isFalse();
        }
        occurrences.add(960);
        assertThat(occurrences.tooMany(960)).isTrue();
    }
}
