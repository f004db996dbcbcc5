package linehold.simulator.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Published totals of the schedules. */
class BuiltInDrivesReferenceTest {
    /** UN ECE R83 annex 4a, 6.1.1: 195 s, "theoretical distance covered per cycle: 1.013 km". */
    @Test
    void shouldCoverThePublishedUrbanDistance() {
        Schedule urban = EceR83.urban();
        assertThat(urban.durationS()).isEqualTo(195);
        // The table's corner points integrate to 1018 m; the published figure is rounded from another reckoning.
        assertThat(urban.distanceM()).isCloseTo(1013, within(0.006 * 1013));
    }

    /** The same paragraph: idling 60 s, accelerations 36 s, steady 57 s and gear changing 8 s, decelerations 25 s and 9 s. */
    @Test
    void shouldSpendThePublishedTimesInEachPhase() {
        double idleS = 0;
        double upS = 0;
        double steadyS = 0;
        double downS = 0;
        List<Schedule.Point> points = EceR83.urban().points();
        for (int i = 1; i < points.size(); i++) {
            double seconds = points.get(i).timeS() - points.get(i - 1).timeS();
            double change = points.get(i).speedKmH() - points.get(i - 1).speedKmH();
            if (change > 0) {
                upS += seconds;
            } else if (change < 0) {
                downS += seconds;
            } else if (points.get(i).speedKmH() == 0) {
                idleS += seconds;
            } else {
                steadyS += seconds;
            }
        }
        assertThat(new double[] {idleS, upS, steadyS, downS}).containsExactly(60, 36, 57 + 8, 25 + 9);
    }

    /** UN ECE R83 annex 4a, 6.1.2 (from memory): 400 s, 6.955 km, highest speed 120 km/h. */
    @Test
    void shouldCoverThePublishedExtraUrbanDistance() {
        Schedule extraUrban = EceR83.extraUrban();
        assertThat(extraUrban.durationS()).isEqualTo(400);
        assertThat(extraUrban.distanceM()).isCloseTo(6955, within(1.0));
        assertThat(extraUrban.points().stream()
                        .mapToDouble(Schedule.Point::speedKmH)
                        .max())
                .hasValue(120);
    }

    /** Published for the whole cycle: 1180 s, 11.007 km, largest acceleration 1.04 m/s². */
    @Test
    void shouldCoverThePublishedDistanceOfTheWholeCycle() {
        Schedule cycle = EceR83.cycle();
        assertThat(cycle.durationS()).isEqualTo(1180);
        assertThat(cycle.distanceM()).isCloseTo(11007, within(0.003 * 11007));
        double steepest = 0;
        for (int i = 1; i < cycle.points().size(); i++) {
            Schedule.Point a = cycle.points().get(i - 1);
            Schedule.Point b = cycle.points().get(i);
            steepest = Math.max(steepest, (b.speedKmH() - a.speedKmH()) / 3.6 / (b.timeS() - a.timeS()));
        }
        assertThat(steepest).isCloseTo(1.04, within(0.005));
    }

    /** SAE J227a, from memory: C 30 mph in 80 s, D 45 mph in 122 s. */
    @Test
    void shouldTakeTheTimesOfSaeJ227a() {
        assertThat(SaeJ227a.C.cycleS()).isEqualTo(80);
        assertThat(SaeJ227a.D.cycleS()).isEqualTo(122);
        assertThat(SaeJ227a.C.topSpeedMPerS() * 3.6).isCloseTo(48, within(0.5));
        assertThat(SaeJ227a.D.topSpeedMPerS() * 3.6).isCloseTo(72, within(0.5));
    }
}
