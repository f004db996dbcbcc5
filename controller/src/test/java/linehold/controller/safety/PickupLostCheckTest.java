package linehold.controller.safety;

import static org.assertj.core.api.Assertions.assertThat;

import linehold.controller.Requirement;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import org.junit.jupiter.api.Test;

@Requirement("LH-SP-3")
class PickupLostCheckTest {
    private static final long MS = 1_000_000;
    private static final double RPM = Math.PI / 30;
    private PickupLostCheck pickup = new PickupLostCheck(Calibration.builder().build());

    private boolean at(long ms, boolean fellTooFast, double rpm, long edges, double bar) {
        pickup.update(ms * MS, fellTooFast, rpm * RPM, edges, bar * 1e5);
        return pickup.active();
    }

    @Test
    void shouldBeLostAtOnceWhenEdgesAreMissingThatNoStopCouldSuppress() {
        assertThat(at(0, false, 5000, 100, 8)).isFalse();
        assertThat(at(5, true, 2000, 100, 8)).isTrue();
    }

    @Test
    void shouldBeLostWhenPressureStaysBeyondTheElectricPumpWithoutAnEdge() {
        // Relief at 8.5 bar, believed to be exceeded from 9.35 bar.
        assertThat(at(0, false, 0, 100, 9.4)).isFalse();
        assertThat(at(999, false, 0, 100, 9.4)).isFalse();
        assertThat(at(1000, false, 0, 100, 9.4)).isTrue();
    }

    @Test
    void shouldNotBeLostByAPressureThatTheElectricPumpCanMake() {
        at(0, false, 0, 100, 9.3);
        assertThat(at(60_000, false, 0, 100, 9.3)).isFalse();
    }

    @Test
    void shouldNotBeLostWhileStoredPressureDrains() {
        at(0, false, 0, 100, 10);
        assertThat(at(800, false, 0, 100, 9.4)).isFalse();
        assertThat(at(900, false, 0, 100, 9)).isFalse();
        assertThat(at(5000, false, 0, 100, 9)).isFalse();
    }

    @Test
    void shouldNotBeLostWhileTheShaftTurnsOrThePressureIsUnknown() {
        at(0, false, 101, 100, 12);
        assertThat(at(5000, false, 101, 100, 12)).isFalse();
        at(6000, false, 0, 100, Double.NaN);
        assertThat(at(60_000, false, 0, 100, Double.NaN)).isFalse();
    }

    @Test
    void shouldBelieveAReturnedPickupAfterOneTurnOfTheShaft() {
        pickup = new PickupLostCheck(
                Calibration.builder().set(Key.PULSES_PER_REVOLUTION, 6).build());
        at(0, true, 2000, 100, 8);
        assertThat(at(5, false, 2000, 105, 8)).isTrue();
        assertThat(at(10, false, 2000, 106, 8)).isFalse();
    }

    @Test
    void shouldBelieveACoarsePickupOnlyAfterFourEdges() {
        pickup = new PickupLostCheck(
                Calibration.builder().set(Key.PULSES_PER_REVOLUTION, 1).build());
        at(0, true, 2000, 100, 8);
        assertThat(at(5, false, 2000, 103, 8)).isTrue();
        assertThat(at(10, false, 2000, 104, 8)).isFalse();
    }
}
