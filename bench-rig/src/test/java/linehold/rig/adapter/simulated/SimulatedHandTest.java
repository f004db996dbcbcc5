package linehold.rig.adapter.simulated;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.Range;
import linehold.rig.procedure.Shaft;
import linehold.simulator.build.Gear;
import linehold.simulator.drive.DriveReader;
import linehold.simulator.drive.DriveSample;
import org.junit.jupiter.api.Test;

class SimulatedHandTest {
    private static final double ROW_S = 0.005;

    private Shaft asked = Shaft.still(Range.NEUTRAL);
    private final SimulatedHand hand = new SimulatedHand(() -> asked, ROW_S);
    private final DriveReader reader = hand.open();
    private final DriveSample row = new DriveSample();

    private double turns;

    private void rows(double seconds) {
        for (int i = 0; i < Math.round(seconds / ROW_S); i++) {
            double before = row.shaftSpeedRadPerS;
            assertThat(reader.read(row)).isTrue();
            turns += (before + row.shaftSpeedRadPerS) / 2 * ROW_S / (2 * Math.PI);
        }
    }

    @Test
    void shouldTurnAsManyTurnsAsAskedAndRest() {
        asked = new Shaft(2 * Math.PI, 50, 10, Range.NEUTRAL);
        rows(5);
        assertThat(hand.done(asked)).isFalse();
        rows(10);
        assertThat(turns).isCloseTo(10, within(0.03));
        assertThat(row.shaftSpeedRadPerS).isZero();
        assertThat(hand.done(asked)).isTrue();
    }

    @Test
    void shouldGoToASpeedAtItsRateAndStayThere() {
        asked = new Shaft(100, 50, Double.POSITIVE_INFINITY, Range.NEUTRAL);
        rows(1);
        assertThat(row.shaftSpeedRadPerS).isCloseTo(50, within(0.5));
        rows(2);
        assertThat(row.shaftSpeedRadPerS).isEqualTo(100);
        assertThat(hand.done(asked)).isTrue();
        asked = Shaft.still(Range.NEUTRAL);
        assertThat(hand.done(asked)).as("not before it has been seen").isFalse();
        rows(3);
        assertThat(row.shaftSpeedRadPerS).isZero();
    }

    @Test
    void shouldEngageFirstOnlyInDrive() {
        rows(0.1);
        assertThat(row.gear).isEqualTo(Gear.NEUTRAL);
        asked = Shaft.still(Range.DRIVE);
        rows(0.1);
        assertThat(row.gear).isEqualTo(Gear.FIRST);
        assertThat(row.range).isEqualTo(Range.DRIVE);
        assertThat(row.keyOn).isTrue();
    }
}
