package linehold.controller.safety;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import linehold.controller.Requirement;
import org.junit.jupiter.api.Test;

@Requirement("LH-TC-1")
class CodeStoreTest {
    private final CodeStore codes = new CodeStore();
    private final double[] frame = new double[FrozenValue.values().length];

    private void tick(long nowNs, boolean active, TroubleCode... which) {
        Arrays.stream(which).forEach(code -> codes.set(code, active));
        Arrays.fill(frame, nowNs);
        codes.store(nowNs, frame);
    }

    private static CodeStore imported(CodeStore from) {
        long[] longs = new long[from.exportedLongs()];
        double[] doubles = new double[from.exportedDoubles()];
        from.exportTo(longs, doubles);
        CodeStore to = new CodeStore();
        to.importFrom(longs, doubles);
        return to;
    }

    @Test
    void shouldKeepFirstAndLastTimeCountAndTheFirstFreezeFrame() {
        assertThat(codes.count(TroubleCode.SENDER_LOST)).isZero();
        codes.keyOn();
        tick(10, true, TroubleCode.SENDER_LOST);
        tick(20, true, TroubleCode.SENDER_LOST);
        tick(30, false, TroubleCode.SENDER_LOST);
        tick(40, true, TroubleCode.SENDER_LOST);
        tick(50, false, TroubleCode.SENDER_LOST);
        assertThat(codes.stored()).isEqualTo(TroubleCode.SENDER_LOST.bit());
        assertThat(codes.count(TroubleCode.SENDER_LOST)).isEqualTo(2);
        assertThat(codes.firstNs(TroubleCode.SENDER_LOST)).isEqualTo(10);
        assertThat(codes.lastNs(TroubleCode.SENDER_LOST)).isEqualTo(40);
        for (FrozenValue value : FrozenValue.values()) {
            assertThat(codes.frozen(TroubleCode.SENDER_LOST, value)).isEqualTo(10);
        }
        assertThat(codes.count(TroubleCode.PICKUP_LOST)).isZero();
    }

    @Test
    void shouldTellWhenACodeComesUp() {
        codes.set(TroubleCode.SENDER_LOST, true);
        assertThat(codes.anyNew()).isTrue();
        tick(10, true, TroubleCode.SENDER_LOST);
        assertThat(codes.anyNew()).isFalse();
        tick(20, false, TroubleCode.SENDER_LOST);
        assertThat(codes.anyNew()).isFalse();
        codes.set(TroubleCode.SENDER_LOST, true);
        assertThat(codes.anyNew()).isTrue();
    }

    @Test
    void shouldClearACodeAfterThreeKeyCyclesWithoutIt() {
        codes.keyOn();
        tick(10, true, TroubleCode.SENDER_LOST, TroubleCode.PICKUP_LOST);
        tick(20, false, TroubleCode.SENDER_LOST);
        for (int cycle = 1; cycle <= 3; cycle++) {
            codes.keyOn();
            tick(100 * cycle, false, TroubleCode.SENDER_LOST);
            assertThat(codes.count(TroubleCode.SENDER_LOST)).isEqualTo(1);
        }
        codes.keyOn();
        assertThat(codes.count(TroubleCode.SENDER_LOST)).isZero();
        // Never one that is active.
        assertThat(codes.stored()).isEqualTo(TroubleCode.PICKUP_LOST.bit());
        // It starts anew, with a frame of its own.
        tick(1000, true, TroubleCode.SENDER_LOST);
        assertThat(codes.count(TroubleCode.SENDER_LOST)).isEqualTo(1);
        assertThat(codes.firstNs(TroubleCode.SENDER_LOST)).isEqualTo(1000);
        assertThat(codes.frozen(TroubleCode.SENDER_LOST, FrozenValue.PUMP_STATE))
                .isEqualTo(1000);
    }

    @Test
    void shouldCountTheThreeCyclesFromTheLastTimeItWasActive() {
        codes.keyOn();
        tick(10, true, TroubleCode.SENDER_LOST);
        tick(20, false, TroubleCode.SENDER_LOST);
        codes.keyOn();
        codes.keyOn();
        tick(30, true, TroubleCode.SENDER_LOST);
        tick(40, false, TroubleCode.SENDER_LOST);
        for (int cycle = 0; cycle < 3; cycle++) {
            codes.keyOn();
        }
        assertThat(codes.count(TroubleCode.SENDER_LOST)).isEqualTo(2);
        codes.keyOn();
        assertThat(codes.stored()).isZero();
    }

    @Test
    void shouldHoldEveryCodeAtOnce() {
        tick(10, true, TroubleCode.values());
        assertThat(Long.bitCount(codes.stored())).isEqualTo(TroubleCode.values().length);
        for (TroubleCode code : TroubleCode.values()) {
            assertThat(codes.count(code)).isEqualTo(1);
            assertThat(codes.firstNs(code)).isEqualTo(10);
        }
    }

    @Test
    void shouldComeThroughALossOfPowerUnchanged() {
        codes.keyOn();
        tick(10, true, TroubleCode.SENDER_LOST, TroubleCode.SUPPLY_HIGH);
        tick(20, false, TroubleCode.SENDER_LOST);
        tick(30, true, TroubleCode.SENDER_LOST);
        CodeStore later = imported(codes);
        assertThat(later.stored()).isEqualTo(codes.stored());
        assertThat(later.active()).isZero();
        assertThat(later.count(TroubleCode.SENDER_LOST)).isEqualTo(2);
        assertThat(later.firstNs(TroubleCode.SENDER_LOST)).isEqualTo(10);
        assertThat(later.lastNs(TroubleCode.SENDER_LOST)).isEqualTo(30);
        assertThat(later.frozen(TroubleCode.SUPPLY_HIGH, FrozenValue.BUS_VOLTAGE))
                .isEqualTo(10);
        // Key cycles count on.
        for (int cycle = 0; cycle < 3; cycle++) {
            later.keyOn();
            later = imported(later);
        }
        assertThat(later.count(TroubleCode.SENDER_LOST)).isEqualTo(2);
        later.keyOn();
        assertThat(later.stored()).isZero();
        assertThat(imported(later).stored()).isZero();
    }

    @Test
    void shouldMoveTimesToAClockThatBeganAnew() {
        tick(1000, true, TroubleCode.SENDER_LOST);
        tick(1500, true, TroubleCode.SENDER_LOST);
        long[] longs = new long[codes.exportedLongs()];
        double[] doubles = new double[codes.exportedDoubles()];
        codes.exportTo(longs, doubles);
        CodeStore later = new CodeStore();
        later.importFrom(longs, doubles, -1600);
        assertThat(later.firstNs(TroubleCode.SENDER_LOST)).isEqualTo(-600);
        assertThat(later.lastNs(TroubleCode.SENDER_LOST)).isEqualTo(-100);
        assertThat(later.count(TroubleCode.SENDER_LOST)).isEqualTo(1);
    }

    @Test
    void shouldTakeAnExportThatKnowsFewerCodes() {
        tick(10, true, TroubleCode.LATE_TICK);
        long[] longs = new long[codes.exportedLongs()];
        double[] doubles = new double[codes.exportedDoubles()];
        codes.exportTo(longs, doubles);
        longs[1] = 1;
        CodeStore later = new CodeStore();
        later.importFrom(Arrays.copyOf(longs, 7), Arrays.copyOf(doubles, frame.length));
        assertThat(later.stored()).isEqualTo(TroubleCode.LATE_TICK.bit());
        assertThat(later.frozen(TroubleCode.LATE_TICK, FrozenValue.PUMP_STATE)).isEqualTo(10);
    }

    @Test
    void shouldRefuseWhatIsNoExportAndKeepWhatIsThere() {
        tick(10, true, TroubleCode.LATE_TICK);
        long[] longs = new long[codes.exportedLongs()];
        double[] doubles = new double[codes.exportedDoubles()];
        codes.exportTo(longs, doubles);
        long[] later = longs.clone();
        later[1]++;
        long[] negative = longs.clone();
        negative[1] = -1;
        long[] other = longs.clone();
        other[0]++;
        long[][] bad = {new long[2], new long[0], Arrays.copyOf(longs, longs.length - 1), later, negative, other};
        for (long[] words : bad) {
            assertThatThrownBy(() -> codes.importFrom(words, doubles)).isInstanceOf(IllegalArgumentException.class);
        }
        assertThatThrownBy(() -> codes.importFrom(longs, new double[doubles.length - 1]))
                .isInstanceOf(IllegalArgumentException.class);
        assertThat(codes.stored()).isEqualTo(TroubleCode.LATE_TICK.bit());
    }

    @Test
    void shouldGiveEveryFrozenValueItsUnit() {
        assertThat(FrozenValue.SHAFT_SPEED.unit()).isEqualTo("rad/s");
        assertThat(FrozenValue.PUMP_STATE.unit()).isEmpty();
    }
}
