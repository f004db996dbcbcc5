package linehold.simulator.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import linehold.simulator.build.BuildFile;
import linehold.simulator.fault.LiveFaults.State;
import linehold.simulator.sensor.SensorFaults;
import org.junit.jupiter.api.Test;

class LiveFaultsTest {
    private final LiveFaults faults = new LiveFaults(BuildFile.loadNamed("demonstration"));
    private final FaultTargets targets = new FaultTargets(null, new SensorFaults(), new UnitFaults());

    @Test
    void shouldBeginAndEndAtTheNextTick() {
        faults.begin(FaultKind.PICKUP_DEAD);
        assertThat(faults.state(FaultKind.PICKUP_DEAD)).isEqualTo(State.COMING);
        assertThat(targets.sensors().pickupDead).isFalse();
        faults.update(1, targets);
        assertThat(faults.state(FaultKind.PICKUP_DEAD)).isEqualTo(State.PRESENT);
        assertThat(targets.sensors().pickupDead).isTrue();
        faults.clear(FaultKind.PICKUP_DEAD);
        assertThat(targets.sensors().pickupDead).isTrue();
        faults.update(2, targets);
        assertThat(faults.state(FaultKind.PICKUP_DEAD)).isEqualTo(State.ABSENT);
        assertThat(targets.sensors().pickupDead).isFalse();
    }

    @Test
    void shouldEndByItselfWhenItsUsualTimeHasPassed() {
        faults.begin(FaultKind.BUS_OVERSHOOT);
        faults.update(1, targets);
        faults.update(1.39, targets);
        assertThat(targets.unit().busOpenVolts).isEqualTo(18);
        faults.update(1.41, targets);
        assertThat(targets.unit().busOpenVolts).isNaN();
        assertThat(faults.state(FaultKind.BUS_OVERSHOOT)).isEqualTo(State.ABSENT);
    }

    /** Both stop the count; the frozen one is over after a second. */
    @Test
    void shouldKeepWhatAnotherFaultBreaksWhenOneEnds() {
        faults.begin(FaultKind.PICKUP_DEAD);
        faults.begin(FaultKind.PICKUP_FROZEN);
        faults.update(1, targets);
        faults.update(3, targets);
        assertThat(faults.state(FaultKind.PICKUP_FROZEN)).isEqualTo(State.ABSENT);
        assertThat(targets.sensors().pickupDead).isTrue();
    }

    @Test
    void shouldForgetAFaultThatIsClearedBeforeItsTick() {
        faults.begin(FaultKind.PICKUP_DEAD);
        faults.clear(FaultKind.PICKUP_DEAD);
        faults.clear(FaultKind.PICKUP_NOISE);
        faults.update(1, targets);
        assertThat(targets.sensors().pickupDead).isFalse();
        assertThat(faults.possible()).allMatch(kind -> faults.state(kind) == State.ABSENT);
    }

    @Test
    void shouldRefuseFaultsOfTheControlUnit() {
        assertThatThrownBy(() -> faults.begin(FaultKind.UNIT_DEAD)).isInstanceOf(IllegalArgumentException.class);
    }
}
