package linehold.controller.safety;

import static org.assertj.core.api.Assertions.assertThat;

import linehold.controller.Requirement;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import org.junit.jupiter.api.Test;

@Requirement("LH-SP-3")
class PickupLostCheckTest {
    private static final long MS = 1_000_000;
    private PickupLostCheck pickup = new PickupLostCheck(Calibration.builder().build());

    private boolean at(long ms, boolean fellTooFast, long edges, double bar) {
        pickup.update(ms * MS, fellTooFast, edges, bar * 1e5);
        return pickup.active();
    }

    @Test
    void shouldBeLostAtOnceWhenEdgesAreMissingThatNoStopCouldSuppress() {
        assertThat(at(0, false, 100, 8)).isFalse();
        assertThat(at(5, true, 100, 8)).isTrue();
    }

    @Test
    void shouldBeLostWhenPressureStaysBeyondTheElectricPumpWithoutAnEdge() {
        // Relief at 8.5 bar, believed to be exceeded from 9.35 bar.
        at(0, false, 100, 9.4); // the last edge comes with this tick
        assertThat(at(5, false, 100, 9.4)).isFalse();
        assertThat(at(1004, false, 100, 9.4)).isFalse();
        assertThat(at(1005, false, 100, 9.4)).isTrue();
    }

    @Test
    void shouldNotBeLostByAPressureThatTheElectricPumpCanMake() {
        at(0, false, 100, 9.3);
        assertThat(at(60_000, false, 100, 9.3)).isFalse();
    }

    @Test
    void shouldNotBeLostWhileStoredPressureDrains() {
        at(0, false, 100, 10);
        assertThat(at(800, false, 100, 9.4)).isFalse();
        assertThat(at(900, false, 100, 9)).isFalse();
        assertThat(at(5000, false, 100, 9)).isFalse();
    }

    @Test
    void shouldNotBeLostWhileACreepingShaftStillGivesEdges() {
        // Cold oil: 60 rpm hold 10 bar; four pulses a turn come 250 ms apart.
        for (int tick = 0; tick < 2000; tick++) {
            assertThat(at(5L * tick, false, tick / 50, 10)).isFalse();
        }
    }

    @Test
    void shouldGiveACoarsePickupTimeForSeveralEdges() {
        pickup = new PickupLostCheck(
                Calibration.builder().set(Key.PULSES_PER_REVOLUTION, 1).build());
        at(0, false, 100, 10);
        at(5, false, 100, 10);
        assertThat(at(3999, false, 100, 10)).isFalse();
        assertThat(at(4005, false, 100, 10)).isTrue();
    }

    @Test
    void shouldNotBeLostWhileThePressureIsUnknown() {
        at(6000, false, 100, Double.NaN);
        assertThat(at(60_000, false, 100, Double.NaN)).isFalse();
    }

    @Test
    void shouldBelieveAReturnedPickupAfterOneTurnOfTheShaft() {
        pickup = new PickupLostCheck(
                Calibration.builder().set(Key.PULSES_PER_REVOLUTION, 6).build());
        at(0, true, 100, 8);
        assertThat(at(5, false, 105, 8)).isTrue();
        assertThat(at(10, false, 106, 8)).isFalse();
    }

    @Test
    void shouldBelieveACoarsePickupOnlyAfterFourEdges() {
        pickup = new PickupLostCheck(
                Calibration.builder().set(Key.PULSES_PER_REVOLUTION, 1).build());
        at(0, true, 100, 8);
        assertThat(at(5, false, 103, 8)).isTrue();
        assertThat(at(10, false, 104, 8)).isFalse();
    }
}
