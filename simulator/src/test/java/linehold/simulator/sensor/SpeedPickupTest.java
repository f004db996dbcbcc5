package linehold.simulator.sensor;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class SpeedPickupTest {
    private static final double RPM = Math.PI / 30;

    @Test
    void shouldGiveTheToothFrequencyAtSteadySpeed() {
        // f = rpm·z/60: 3000 rpm and 60 teeth give 3000 Hz (the usual tooth-wheel relation)
        SpeedPickup pickup = new SpeedPickup(60);
        for (int i = 0; i < 200; i++) {
            pickup.turn(i * 0.005, 0.005, 3000 * RPM, 0);
        }
        assertThat(pickup.edgeCount()).isEqualTo(3000);
    }

    @Test
    void shouldStampEdgesWhereTeethAreWhenSpeedFalls() {
        // From 600 rpm to rest in 0.5 s: 2.5 turns; with one tooth half a turn ahead edges fall at 0.5, 1.5 and 2.5
        // turns,
        // the last of them exactly at rest.
        SpeedPickup pickup = new SpeedPickup(1);
        double start = 600 * RPM;
        double slope = -start / 0.5;
        pickup.turn(0, 0.2, start, slope);
        // θ(t) = ω·t − ½·a·t² = 2π·1.5  →  20πt − 20πt² = 3π  →  t = (1 − √0.4)/2
        assertThat(pickup.edgeCount()).isEqualTo(2);
        assertThat(pickup.lastEdgeS()).isCloseTo((1 - Math.sqrt(0.4)) / 2, within(1e-12));
    }

    @Test
    void shouldCountTheSameToothAgainWhenTheShaftTurnsBack() {
        SpeedPickup pickup = new SpeedPickup(1);
        pickup.turn(0, 0.06, 600 * RPM, 0); // 0.6 turns forward, past the tooth at 0.5
        assertThat(pickup.edgeCount()).isEqualTo(1);
        pickup.turn(0.06, 0.02, -600 * RPM, 0); // 0.2 turns back, past it again
        assertThat(pickup.edgeCount()).isEqualTo(2);
        assertThat(pickup.lastEdgeS()).isCloseTo(0.07, within(1e-12));
    }

    @Test
    void shouldSplitATurnAtItsReversal() {
        // Out by 0.6 turns and back again (v²/2a = 0.6 turns): the tooth at 0.5 turns passes twice.
        SpeedPickup pickup = new SpeedPickup(1);
        double start = 600 * RPM;
        double slope = -start * start / (2 * 0.6 * 2 * Math.PI);
        pickup.turn(0, 2 * start / -slope, start, slope);
        assertThat(pickup.edgeCount()).isEqualTo(2);
        // on the way back after 0.1 turns: 0.12 s + √(2·0.1/83.33) s
        assertThat(pickup.lastEdgeS()).isCloseTo(0.12 + Math.sqrt(0.2 / (100 / 1.2)), within(1e-9));
    }

    @Test
    void shouldNotDependOnHowATurnIsCut() {
        SplittableRandom random = new SplittableRandom(7);
        for (int run = 0; run < 200; run++) {
            SpeedPickup whole = new SpeedPickup(4);
            SpeedPickup cut = new SpeedPickup(4);
            double start = random.nextDouble(-300, 300);
            double slope = random.nextDouble(-2000, 2000);
            whole.turn(0, 1, start, slope);
            double at = 0;
            while (at < 1) {
                double length = Math.min(1 - at, random.nextDouble(0.001, 0.2));
                cut.turn(at, length, start + slope * at, slope);
                at += length;
            }
            assertThat(cut.edgeCount()).as("seed 7, run %d", run).isEqualTo(whole.edgeCount());
            assertThat(cut.lastEdgeS()).as("seed 7, run %d", run).isCloseTo(whole.lastEdgeS(), within(1e-6));
        }
    }

    @Test
    void shouldStaySilentAtRest() {
        SpeedPickup pickup = new SpeedPickup(4);
        pickup.turn(0, 1000, 0, 0);
        assertThat(pickup.edgeCount()).isZero();
    }
}
