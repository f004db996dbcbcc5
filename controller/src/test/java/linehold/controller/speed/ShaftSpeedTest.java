package linehold.controller.speed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.Requirement;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ShaftSpeedTest {
    private static final double RPM = Math.PI / 30;
    private static final long MS = 1_000_000;
    /** Four pulses per revolution: 15 ms a pulse are 1000 rpm. Highest speed 10,000 rpm: 1.5 ms a pulse. */
    private final ShaftSpeed speed = new ShaftSpeed(Math.PI / 2, 10_000 * RPM, 150_000 * RPM, 5 * MS);

    private long count;

    @BeforeEach
    void start() {
        speed.update(0, 0, 0);
    }

    private void edge(long timeNs) {
        speed.update(timeNs, ++count, timeNs);
    }

    private void quiet(long timeNs, long lastEdgeNs) {
        speed.update(timeNs, count, lastEdgeNs);
    }

    private double rpm() {
        return speed.radPerS() / RPM;
    }

    @Test
    @Requirement("LH-SP-1")
    void shouldBeStandstillUntilTwoEdgesHaveCome() {
        assertThat(speed.radPerS()).isZero();
        edge(100 * MS);
        assertThat(speed.radPerS()).isZero();
        assertThat(speed.slopeRadPerS2()).isNaN();
        edge(115 * MS);
        assertThat(rpm()).isCloseTo(1000, within(1e-6));
    }

    @Test
    @Requirement("LH-SP-1")
    void shouldTrustTheLastEdgeOfACounterThatAlreadyRuns() {
        ShaftSpeed running = new ShaftSpeed(Math.PI / 2, 10_000 * RPM, 150_000 * RPM, 0);
        running.update(100 * MS, 50, 90 * MS);
        running.update(105 * MS, 51, 105 * MS);

        assertThat(running.radPerS()).isCloseTo(1000 * RPM, within(1e-6));
    }

    @Test
    @Requirement("LH-SP-1")
    void shouldNotTrustAFirstEdgeFromTheFuture() {
        ShaftSpeed running = new ShaftSpeed(Math.PI / 2, 10_000 * RPM, 150_000 * RPM, 0);
        running.update(100 * MS, 50, 101 * MS);
        running.update(116 * MS, 51, 116 * MS);

        assertThat(running.radPerS()).isZero();
    }

    @Test
    @Requirement("LH-SP-1")
    void shouldSpreadSeveralEdgesOfOneTickEvenly() {
        edge(10 * MS);
        count += 4;
        speed.update(25 * MS, count, 22 * MS);

        assertThat(rpm()).isCloseTo(5000, within(1e-6));
    }

    @Test
    @Requirement("LH-SP-1")
    void shouldBoundTheSpeedByOnePulseOverTheTimeElapsed() {
        edge(0);
        edge(15 * MS);

        quiet(30 * MS, 15 * MS);
        assertThat(rpm()).isCloseTo(1000, within(1e-6));
        quiet(35 * MS, 15 * MS);
        assertThat(rpm()).isCloseTo(750, within(1e-6));
        quiet(165 * MS, 15 * MS);
        assertThat(rpm()).isCloseTo(100, within(1e-6));
        quiet(15_015 * MS, 15 * MS);
        assertThat(rpm()).isCloseTo(1, within(1e-6));
    }

    @Test
    @Requirement("LH-SP-1")
    void shouldStartFromStandstillWithTheLongPeriodOfTheFirstEdge() {
        edge(0);
        edge(15 * MS);
        quiet(10_000 * MS, 15 * MS);
        edge(10_015 * MS);
        assertThat(rpm()).isCloseTo(1.5, within(1e-6));
        edge(10_030 * MS);
        assertThat(rpm()).isCloseTo(1000, within(1e-6));
    }

    @Test
    @Requirement("LH-SP-2")
    void shouldRejectAndCountEdgesCloserThanThePhysicalMinimum() {
        edge(0);
        edge(15 * MS);
        edge(16 * MS);
        assertThat(speed.rejectedEdges()).isEqualTo(1);
        assertThat(speed.rejectedNow()).isEqualTo(1);
        assertThat(rpm()).isCloseTo(1000, within(1e-6));
        quiet(20 * MS, 16 * MS);
        assertThat(speed.rejectedNow()).isZero();

        // The next true edge is measured from the last true one.
        edge(30 * MS);
        assertThat(rpm()).isCloseTo(1000, within(1e-6));
        assertThat(speed.acceptedEdges()).isEqualTo(2);
        assertThat(speed.rejectedEdges()).isEqualTo(1);
    }

    @Test
    @Requirement("LH-SP-2")
    void shouldAcceptAnEdgeExactlyAtTheHighestSpeed() {
        edge(15 * MS);
        edge(15 * MS + 1_500_000);
        assertThat(rpm()).isCloseTo(10_000, within(1e-3));
        edge(15 * MS + 2_999_000);
        assertThat(speed.rejectedEdges()).isEqualTo(1);
    }

    @Test
    @Requirement("LH-SP-2")
    void shouldFallToStandstillUnderABurstOfNoise() {
        edge(0);
        edge(15 * MS);
        for (long now = 20 * MS; now <= 1000 * MS; now += 5 * MS) {
            count += 50;
            speed.update(now, count, now);
        }
        assertThat(rpm()).isLessThan(16);
        assertThat(speed.rejectedEdges()).isEqualTo(50 * 197);
        assertThat(speed.rejectedNow()).isEqualTo(50);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2})
    @Requirement({"LH-SP-1", "LH-SP-2"})
    void shouldStartAnewFromStandstillWhenTheCounterTellsNonsense(int kind) {
        edge(0);
        edge(15 * MS);
        switch (kind) {
            case 0 -> speed.update(20 * MS, count -= 1, 20 * MS); // counter runs back
            case 1 -> speed.update(20 * MS, ++count, 26 * MS); // edge from the future
            case 2 -> speed.update(20 * MS, ++count, 14 * MS); // edge before the one before
            default -> throw new AssertionError(kind);
        }
        assertThat(speed.radPerS()).isZero();
        assertThat(speed.rejectedEdges()).isEqualTo(1);
        edge(30 * MS);
        assertThat(speed.radPerS()).isZero();
        edge(45 * MS);
        assertThat(rpm()).isCloseTo(1000, within(1e-6));
        assertThat(speed.slopeRadPerS2()).isNaN();
    }

    @Test
    @Requirement("LH-SP-1")
    void shouldTolerateAnEdgeStampedALittleAfterTheTick() {
        edge(0);
        edge(15 * MS);
        speed.update(27 * MS, ++count, 30 * MS);

        assertThat(rpm()).isCloseTo(1000, within(1e-6));
        speed.update(40 * MS, ++count, 45 * MS);
        assertThat(rpm()).isCloseTo(1000, within(1e-6));
    }

    @Test
    @Requirement("LH-SP-2")
    void shouldCountAnImpossibleNumberOfEdgesAsRejected() {
        edge(0);
        edge(15 * MS);
        speed.update(20 * MS, Long.MAX_VALUE / 2, 20 * MS);

        assertThat(speed.rejectedNow()).isEqualTo(Integer.MAX_VALUE);
        assertThat(rpm()).isCloseTo(1000, within(1e-6));
    }

    @Test
    @Requirement("LH-SW-6")
    void shouldMeasureHowFastTheSpeedFalls() {
        // Periods of 20, 25 and 30 ms: 750, 600 and 500 rpm at 10, 32.5 and 60 ms.
        edge(100 * MS);
        edge(120 * MS);
        edge(145 * MS);
        assertThat(speed.slopeRadPerS2()).isCloseTo(-150 * RPM / 0.0225, within(1e-6));
        edge(175 * MS);
        // 60 ms less the 30 ms window leaves the sample at 10 ms; 32.5 ms is too young.
        assertThat(speed.slopeRadPerS2()).isCloseTo(-250 * RPM / 0.05, within(1e-6));
        // From 500 rpm at 160 ms on: 15 ms at −5000 rpm/s.
        assertThat(speed.extrapolatedRadPerS()).isCloseTo(425 * RPM, within(1e-6));

        // No edge for 40 ms: at most 375 rpm at 195 ms, against the 500 rpm of 160 ms.
        quiet(215 * MS, 175 * MS);
        assertThat(rpm()).isCloseTo(375, within(1e-6));
        assertThat(speed.slopeRadPerS2()).isCloseTo(-125 * RPM / 0.035, within(1e-6));
        assertThat(speed.extrapolatedRadPerS()).isCloseTo((375 - 125 / 0.035 * 0.020) * RPM, within(1e-6));
    }

    @Test
    @Requirement("LH-SW-6")
    void shouldNotExtrapolateARisingSpeedNorBelowZero() {
        edge(0);
        edge(30 * MS);
        edge(45 * MS);
        assertThat(speed.slopeRadPerS2()).isPositive();
        assertThat(speed.extrapolatedRadPerS()).isCloseTo(1000 * RPM, within(1e-6));

        edge(50 * MS);
        edge(150 * MS);
        assertThat(speed.slopeRadPerS2()).isNegative();
        assertThat(speed.extrapolatedRadPerS()).isZero();
    }

    @Test
    @Requirement("LH-SP-3")
    void shouldMissEdgesThatNoStopCouldSuppress() {
        // 6000 rpm, 2.5 ms a pulse; the hardest stop needs 6000 − 150,000·0.00125 = 5813 rpm at the last edge.
        for (int i = 0; i <= 20; i++) {
            edge(Math.round(i * 2.5 * MS));
        }
        assertThat(speed.fellTooFast()).isFalse();
        // Two pulses of 15 rpm·s each: 5812.5·t − 75,000·t² = 30 at t = 5.56 ms.
        quiet(50 * MS + 5_500_000, 50 * MS);
        assertThat(speed.fellTooFast()).isFalse();
        quiet(50 * MS + 5_620_000, 50 * MS);
        assertThat(speed.fellTooFast()).isTrue();
        quiet(950 * MS, 50 * MS);
        assertThat(speed.fellTooFast()).isTrue();
        // An edge after all.
        edge(960 * MS);
        assertThat(speed.fellTooFast()).isFalse();
    }

    @Test
    @Requirement("LH-SP-3")
    void shouldNotMissEdgesBelowTheSpeedThatStopsWithinTwoPulses() {
        // 2·150,000·30 = 3000²: below 3000 rpm at the last edge (here 2500 less 450) nothing can be concluded.
        for (int i = 0; i <= 20; i++) {
            edge(i * 6 * MS);
        }
        quiet(5_000 * MS, 120 * MS);

        assertThat(speed.fellTooFast()).isFalse();
    }

    @Test
    @Requirement("LH-SP-3")
    void shouldNotMissEdgesAfterOneLongPeriod() {
        // The mean over 100 ms says nothing about the speed at its end.
        edge(0);
        count += 39;
        speed.update(100 * MS, count, 100 * MS);
        assertThat(rpm()).isCloseTo(5850, within(1e-6));
        quiet(200 * MS, 100 * MS);

        assertThat(speed.fellTooFast()).isFalse();
    }

    @Test
    @Requirement("LH-PR-2")
    void shouldCallAnEdgeOverdueAfterOneAndAHalfPeriods() {
        edge(0);
        quiet(1000 * MS, 0);
        assertThat(speed.overdue()).isFalse();
        edge(2000 * MS);
        edge(2020 * MS);
        assertThat(speed.lastEdgeNs()).isEqualTo(2020 * MS);
        quiet(2049 * MS, 2020 * MS);
        assertThat(speed.overdue()).isFalse();
        quiet(2051 * MS, 2020 * MS);
        assertThat(speed.overdue()).isTrue();
        edge(2052 * MS);
        assertThat(speed.overdue()).isFalse();
    }
}
