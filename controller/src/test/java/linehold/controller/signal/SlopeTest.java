package linehold.controller.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class SlopeTest {
    private static final long MS = 1_000_000;

    @Test
    void shouldBeUnknownWithoutASampleBefore() {
        Slope slope = new Slope(30 * MS, 8);

        assertThat(slope.perSecond(10 * MS, 5)).isNaN();
        slope.add(10 * MS, 5);
        assertThat(slope.perSecond(10 * MS, 6)).isNaN();
        assertThat(slope.perSecond(20 * MS, 6)).isCloseTo(100, within(1e-9));
    }

    @Test
    void shouldCompareWithTheYoungestSampleAtLeastAWindowOld() {
        Slope slope = new Slope(30 * MS, 8);
        slope.add(0, 1000);
        slope.add(10 * MS, 20);
        slope.add(20 * MS, 500);
        slope.add(30 * MS, 600);

        // 40 ms less 30 ms is the sample of 10 ms exactly.
        assertThat(slope.perSecond(40 * MS, 50)).isCloseTo(1000, within(1e-9));
        assertThat(slope.perSecond(49 * MS, 59)).isCloseTo(1000, within(1e-9));
        assertThat(slope.perSecond(50 * MS, 530)).isCloseTo(1000, within(1e-9));
    }

    @Test
    void shouldCompareNeighboursThatAreFartherApartThanTheWindow() {
        Slope slope = new Slope(30 * MS, 8);
        slope.add(0, 10);
        slope.add(100 * MS, 20);

        assertThat(slope.perSecond(300 * MS, 30)).isCloseTo(50, within(1e-9));
    }

    @Test
    void shouldCompareWithTheOldestKeptWhenTheWindowHoldsMoreThanItKeeps() {
        Slope slope = new Slope(30 * MS, 4);
        for (int i = 0; i < 11; i++) {
            slope.add(i * MS, i * i);
        }

        // Kept: 7, 8, 9, 10 ms; 49 at 7 ms.
        assertThat(slope.perSecond(11 * MS, 121)).isCloseTo((121 - 49) / 4e-3, within(1e-6));
    }

    @Test
    void shouldForgetOnReset() {
        Slope slope = new Slope(30 * MS, 4);
        slope.add(0, 1);
        slope.add(40 * MS, 2);
        slope.perSecond(80 * MS, 3);
        slope.reset();

        assertThat(slope.perSecond(90 * MS, 1)).isNaN();
        slope.add(100 * MS, 7);
        assertThat(slope.perSecond(200 * MS, 8)).isCloseTo(10, within(1e-9));
    }
}
