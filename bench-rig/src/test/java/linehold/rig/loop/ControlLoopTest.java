package linehold.rig.loop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import linehold.controller.DrivePermission;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.Range;
import linehold.controller.tick.TickField;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class ControlLoopTest {
    private static final long PERIOD_NS = 5_000_000;

    private final SteppedClock clock = new SteppedClock();
    private final FakeCar car = new FakeCar();
    private final RigFaults faults = new RigFaults();
    private final TickRing ring = new TickRing(64);
    private final TickRing.Cursor cursor = ring.follow();
    private final double[] row = new double[TickRow.LENGTH];
    private final List<Long> times = new ArrayList<>();
    private int fed;

    /** The pump is off and drive is granted: everything that a safe end has to change. */
    private final Decision cruising = (nowNs, in, out) -> {
        times.add(nowNs);
        out.mainRelayCoil = true;
        out.standbyRelayCoil = true;
        out.permission = DrivePermission.GRANTED;
        out.torqueLimitNm = Double.POSITIVE_INFINITY;
    };

    private ControlLoop loop(Decision decision, boolean normallyClosed) {
        return new ControlLoop(car, decision, clock, () -> fed++, normallyClosed, PERIOD_NS, faults, ring);
    }

    @Test
    void shouldTickOnAGridThatDoesNotDrift() {
        car.ticksLeft = 4;
        Decision slow = (nowNs, in, out) -> {
            times.add(nowNs);
            clock.nowNs += 1_000_000;
        };
        loop(slow, true).run();
        assertThat(times).hasSize(4);
        assertThat(times.get(3) - times.get(0)).isEqualTo(3 * PERIOD_NS);
        assertThat(fed).isEqualTo(4);
    }

    @Test
    void shouldLeaveOutWholeTicksAndKeepTheGridAfterATickThatTookTooLong() {
        car.ticksLeft = 4;
        Decision onceSlow = (nowNs, in, out) -> {
            times.add(nowNs);
            if (times.size() == 2) {
                clock.nowNs += 3 * PERIOD_NS + 2_000_000;
            }
        };
        ControlLoop loop = loop(onceSlow, true);
        loop.run();
        long start = times.get(0);
        // The second tick ends 2 ms after the fifth was due: two are left out, the next one is 2 ms late.
        assertThat(times)
                .containsExactly(start, start + PERIOD_NS, start + 4 * PERIOD_NS + 2_000_000, start + 5 * PERIOD_NS);
        assertThat(loop.lateness().skipped()).isEqualTo(2);
        assertThat(loop.lateness().worstNs()).isEqualTo(2_000_000);
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    // LH-RL-6
    void shouldLeaveThePumpRunningAndDriveWithheldWhenItEnds(boolean normallyClosed) {
        car.ticksLeft = 3;
        loop(cruising, normallyClosed).run();
        assertThat(car.mainCoil).isEqualTo(!normallyClosed);
        assertThat(car.standbyCoil).isFalse();
        assertThat(car.permission).isEqualTo(DrivePermission.WITHHELD);
        assertThat(car.torqueLimitNm).isZero();
        assertThat(car.lamp).isTrue();
    }

    @Test
    // LH-RL-6
    void shouldLeaveThePumpRunningWhenTheDecisionHasADefect() {
        Decision broken = (nowNs, in, out) -> {
            cruising.step(nowNs, in, out);
            if (times.size() == 3) {
                throw new IllegalStateException("defect");
            }
        };
        assertThatThrownBy(() -> loop(broken, true).run()).hasMessage("defect");
        assertThat(car.mainCoil).isFalse();
        assertThat(car.permission).isEqualTo(DrivePermission.WITHHELD);
        assertThat(fed).isEqualTo(2);
    }

    @Test
    // LH-RL-6
    void shouldHoldTheSafeLevelsUntilInputsAreAlive() {
        car.alive = false;
        car.mainCoil = true;
        car.ticksLeft = 1;
        List<Boolean> coilAtFirstStep = new ArrayList<>();
        long startNs = clock.nowNs;
        loop((nowNs, in, out) -> coilAtFirstStep.add(car.mainCoil), true).run();
        assertThat(coilAtFirstStep).containsExactly(false);
        // Inputs that never come are absent inputs in the end, not a rig that never starts.
        assertThat(clock.nowNs - startNs).isBetween(2_000_000_000L, 2_100_000_000L);
        assertThat(fed).isGreaterThan(390);
    }

    @Test
    void shouldStopAfterTheTickOfTheMoment() {
        List<ControlLoop> self = new ArrayList<>();
        self.add(loop(
                (nowNs, in, out) -> {
                    cruising.step(nowNs, in, out);
                    self.get(0).stop();
                },
                true));
        self.get(0).run();
        assertThat(times).hasSize(1);
        assertThat(car.mainCoil).isFalse();
    }

    private static final Set<RigFault> OF_PORTS = EnumSet.range(RigFault.PICKUP_FAILED, RigFault.BUZZER_FAILED);

    @ParameterizedTest
    @EnumSource(RigFault.class)
    void shouldGoOnWithOnePortFailingAndSayWhich(RigFault port) {
        if (!OF_PORTS.contains(port)) {
            return;
        }
        car.broken = port;
        car.ticksLeft = 3;
        loop(cruising, true).run();
        assertThat(times).hasSize(3);
        while (cursor.read(row)) {
            assertThat((long) row[TickRow.RIG_FAULTS]).isEqualTo(port.bit());
        }
        // The other outputs were still set to what is safe at the end.
        assertThat(car.permission != DrivePermission.WITHHELD).isEqualTo(port == RigFault.PERMISSION_FAILED);

        car.broken = null;
        car.ticksLeft = 2;
        loop(cruising, true).run();
        assertThat(faults.bits()).isZero();
    }

    private Inputs seen(RigFault broken) {
        car.broken = broken;
        car.ticksLeft = 1;
        Inputs seen = new Inputs();
        loop(
                        (nowNs, in, out) -> {
                            for (TickField field : TickField.values()) {
                                if (field.isInput()) {
                                    field.set(seen, field.get(in, new Outputs()));
                                }
                            }
                        },
                        true)
                .run();
        return seen;
    }

    @Test
    void shouldPassEveryInputOn() {
        car.pulses.count = 12;
        car.pulses.lastEdgeNs = 345;
        car.brake = true;
        Inputs in = seen(null);
        assertThat(in.pickupEdgeCount).isEqualTo(12);
        assertThat(in.pickupLastEdgeNs).isEqualTo(345);
        assertThat(in.pressureSenderVolts).isEqualTo(1.5);
        assertThat(in.pressureSenderSupplyVolts).isEqualTo(5);
        assertThat(in.mainContactVolts).isEqualTo(13);
        assertThat(in.standbyContactVolts).isEqualTo(13);
        assertThat(in.pumpCurrentAmps).isEqualTo(10);
        assertThat(in.busVolts).isEqualTo(13);
        assertThat(in.oilTemperatureC).isEqualTo(60);
        assertThat(in.keyOn).isTrue();
        assertThat(in.brakeApplied).isTrue();
        assertThat(in.selectedRange).isEqualTo(Range.DRIVE);
        assertThat(in.torqueRequestNm).isEqualTo(50);
    }

    @Test
    void shouldTakeAnAnalogInputThatFailsAsAbsent() {
        assertThat(seen(RigFault.PRESSURE_SENDER_FAILED).pressureSenderVolts).isNaN();
        assertThat(seen(RigFault.OIL_TEMPERATURE_FAILED).oilTemperatureC).isNaN();
        assertThat(seen(RigFault.RANGE_FAILED).selectedRange).isNull();
    }

    @Test
    void shouldTakeWhatIsSafeForASwitchThatFails() {
        car.brake = true;
        car.key = false;
        assertThat(seen(RigFault.BRAKE_FAILED).brakeApplied).isFalse();
        assertThat(seen(RigFault.KEY_FAILED).keyOn)
                .as("never read: on, so that the pump runs")
                .isTrue();
    }

    @Test
    void shouldHoldTheLastPositionOfAKeyThatFails() {
        car.key = false;
        car.ticksLeft = 2;
        List<Boolean> keys = new ArrayList<>();
        loop(
                        (nowNs, in, out) -> {
                            keys.add(in.keyOn);
                            car.broken = RigFault.KEY_FAILED;
                        },
                        true)
                .run();
        assertThat(keys).containsExactly(false, false);
    }

    @Test
    void shouldTellLostEdgesInTheTickThatLearnsOfThem() {
        car.ticksLeft = 3;
        loop((nowNs, in, out) -> car.pulses.lost = 4, true).run();
        List<Long> bits = new ArrayList<>();
        while (cursor.read(row)) {
            bits.add((long) row[TickRow.RIG_FAULTS]);
        }
        assertThat(bits).containsExactly(0L, RigFault.EDGES_LOST.bit(), 0L);
    }
}
