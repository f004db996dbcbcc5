package linehold.controller;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.management.ManagementFactory;
import java.lang.reflect.Field;
import java.util.Arrays;
import java.util.SplittableRandom;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import org.junit.jupiter.api.Test;

class ControllerTickTest {
    private static String text(Outputs out) {
        StringBuilder text = new StringBuilder();
        for (Field field : Outputs.class.getFields()) {
            try {
                Object value = field.get(out);
                text.append(value instanceof Double number ? Double.doubleToRawLongBits(number) : value)
                        .append(' ');
            } catch (IllegalAccessException e) {
                throw new AssertionError(e);
            }
        }
        return text.toString();
    }

    @Test
    @Requirement("LH-TK-1")
    void shouldGiveBitIdenticalOutputsForIdenticalInputs() {
        Controller one = new Controller(Calibration.builder().build());
        Controller two = new Controller(Calibration.builder().build());
        RandomInputs first = new RandomInputs(new SplittableRandom(11));
        RandomInputs second = new RandomInputs(new SplittableRandom(11));
        Outputs outOne = new Outputs();
        Outputs outTwo = new Outputs();
        for (int i = 0; i < 20_000; i++) {
            one.step(first.next(), first.in, outOne);
            two.step(second.next(), second.in, outTwo);
            assertThat(text(outTwo)).isEqualTo(text(outOne));
        }
    }

    @Test
    @Requirement("LH-TK-1")
    void shouldAllocateNothingInAStep() {
        var threads = (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
        Controller controller = new Controller(Calibration.builder()
                .set(Key.STANDBY_RELAY_FITTED, true)
                .set(Key.PUMP_CURRENT_FITTED, true)
                .build());
        RandomInputs inputs = new RandomInputs(new SplittableRandom(5));
        Outputs out = new Outputs();
        for (int i = 0; i < 2_000; i++) {
            controller.step(inputs.next(), inputs.in, out);
        }
        long thread = Thread.currentThread().getId();
        long allocated = Long.MAX_VALUE;
        // The least of some rounds: the first ones may load classes.
        for (int round = 0; round < 5; round++) {
            long before = threads.getThreadAllocatedBytes(thread);
            for (int i = 0; i < 20_000; i++) {
                controller.step(inputs.next(), inputs.in, out);
            }
            allocated = Math.min(allocated, threads.getThreadAllocatedBytes(thread) - before);
        }
        assertThat(allocated).isZero();
    }

    @Test
    @Requirement("LH-TK-2")
    void shouldStateWhichInputsAreAbsent() {
        TestCar full = new TestCar(Calibration.builder()
                .set(Key.STANDBY_RELAY_FITTED, true)
                .set(Key.PUMP_CURRENT_FITTED, true)
                .build());
        full.tick();
        assertThat(full.out.absentInputs).isZero();

        for (OptionalInput input : OptionalInput.values()) {
            TestCar car = new TestCar(Calibration.builder()
                    .set(Key.STANDBY_RELAY_FITTED, true)
                    .set(Key.PUMP_CURRENT_FITTED, true)
                    .set(input.fitted(), false)
                    .build());
            car.tick();
            assertThat(car.out.absentInputs).isEqualTo(input.bit());
        }
        assertThat(Arrays.stream(OptionalInput.values())
                        .mapToInt(OptionalInput::bit)
                        .sum())
                .isEqualTo((1 << OptionalInput.values().length) - 1);
    }

    @Test
    @Requirement("LH-TK-3")
    void shouldOverwriteEveryOutput() throws IllegalAccessException {
        TestCar car = TestCar.driving(2000);
        Outputs dirty = new Outputs();
        for (Field field : Outputs.class.getFields()) {
            if (field.getType() == boolean.class) {
                field.set(dirty, true);
            } else if (field.getType() == double.class) {
                field.set(dirty, -77.0);
            } else if (field.getType() == long.class) {
                field.set(dirty, -77L);
            } else if (field.getType() == int.class) {
                field.set(dirty, -77);
            } else {
                field.set(dirty, null);
            }
        }
        car.controller.step(car.nowNs, car.in, dirty);

        assertThat(text(dirty)).isEqualTo(text(car.out));
        assertThat(car.out.state).isEqualTo(PumpState.INTERNAL);
    }

    @Test
    @Requirement("LH-TK-4")
    void shouldCountALateTick() {
        TestCar car = TestCar.driving(0);
        car.tick(0, 10_000_000);
        assertThat(car.out.lateTicks).isZero();
        car.tick(0, 10_000_001);
        assertThat(car.out.lateTicks).isEqualTo(1);
        assertThat(car.active(TroubleCode.LATE_TICK)).isFalse();
        car.tick(0, 50_000_001);
        assertThat(car.out.lateTicks).isEqualTo(2);
        assertThat(car.active(TroubleCode.LATE_TICK)).isTrue();
        assertThat(car.out.warningLamp).isTrue();
        assertThat(car.out.buzzer).isFalse();
        assertThat(car.out.permission).isEqualTo(DrivePermission.GRANTED);

        car.in.keyOn = false;
        car.run(1);
        assertThat(car.out.state).isEqualTo(PumpState.OFF);
        assertThat(car.active(TroubleCode.LATE_TICK)).isFalse();
        assertThat(car.stored(TroubleCode.LATE_TICK)).isTrue();
        assertThat(car.out.warningLamp).isFalse();
    }

    @Test
    @Requirement("LH-TK-4")
    void shouldNotCallTheFirstTickLateWhateverTheClockShows() {
        TestCar car = TestCar.standard();
        car.nowNs = Long.MAX_VALUE / 4;
        car.tick();

        assertThat(car.out.lateTicks).isZero();
    }

    @Test
    @Requirement("LH-TK-4")
    void shouldRefuseTimeThatRunsBackwardWithoutChangingState() {
        TestCar car = TestCar.driving(2000);
        TestCar twin = TestCar.driving(2000);
        Outputs answer = new Outputs();
        Inputs alarming = new Inputs();
        car.controller.step(car.nowNs - 1, alarming, answer);

        assertThat(answer.state).isEqualTo(PumpState.INTERNAL);
        assertThat(answer.permission).isEqualTo(DrivePermission.GRANTED);
        assertThat(answer.refusedTicks).isEqualTo(1);
        car.run(1);
        twin.run(1);
        assertThat(car.out.refusedTicks).isEqualTo(1);
        car.out.refusedTicks = 0;
        assertThat(text(car.out)).isEqualTo(text(twin.out));
    }

    @Test
    @Requirement("LH-TK-4")
    void shouldTakeATickAtTheSameTime() {
        TestCar car = TestCar.driving(0);
        car.in.keyOn = false;
        car.controller.step(car.nowNs, car.in, car.out);

        assertThat(car.out.refusedTicks).isZero();
        assertThat(car.out.state).isEqualTo(PumpState.OFF);
    }
}
