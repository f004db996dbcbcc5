package linehold.rig.paper;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Random;
import linehold.controller.DrivePermission;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.run.Moment;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** Parts of a run against the same taken from every tick one by one. */
class TraceTest {
    private static final Build BUILD = BuildFile.loadNamed("demonstration");
    private static final double PERIOD_S = 0.005;
    private static final int TICKS = 70_001;

    private final Random random = new Random(20);
    private final float[] pressurePa = new float[TICKS];
    private final float[] speedRadPerS = new float[TICKS];
    private final int[] state = new int[TICKS];
    private final long[] codes = new long[TICKS];
    private final Trace trace = new Trace(BUILD.calibration());

    private void record(int ticks) {
        Moment moment = new Moment();
        for (int i = 0; i < ticks; i++) {
            pressurePa[i] = (float) (8e5 + 1e5 * random.nextGaussian());
            speedRadPerS[i] = (float) (100 * random.nextGaussian());
            boolean changes = random.nextInt(300) == 0;
            state[i] = i == 0 ? 0 : changes ? random.nextInt(PumpState.values().length) : state[i - 1];
            codes[i] = random.nextInt(2000) == 0 ? 1L << random.nextInt(20) : 0;
            moment.timeS = (i * 5_000_000L) * 1e-9;
            moment.lowestPressurePa = pressurePa[i];
            moment.shaftRadPerS = speedRadPerS[i];
            moment.outputs.state = PumpState.values()[state[i]];
            moment.outputs.reason = SwitchReason.KEY_ON;
            moment.outputs.permission = DrivePermission.GRANTED;
            moment.outputs.activeCodes = codes[i];
            moment.outputs.mainRelayCoil = i % 1000 < 10;
            moment.inputs.busVolts = 13;
            moment.inputs.mainContactVolts = i < 5000 ? 12 : 1;
            trace.tick(moment);
        }
        trace.end();
    }

    @AfterEach
    void close() {
        trace.close();
    }

    private static double timeS(int tick) {
        return (tick * 5_000_000L) * 1e-9;
    }

    /** Places follow each other without a gap and without a tick in two of them. */
    private void compare(Trace.Part part, int first, int end) {
        int from = first;
        for (int place = 0; place < part.t().length; place++) {
            assertThat(part.t()[place]).isEqualTo(timeS(from));
            int to = place + 1 < part.t().length ? (int) Math.round(part.t()[place + 1] / PERIOD_S) : end;
            assertThat(to - from).isBetween(1, part.tickCount());
            float[] p = Arrays.copyOfRange(pressurePa, from, to);
            float[] n = Arrays.copyOfRange(speedRadPerS, from, to);
            Arrays.sort(p);
            Arrays.sort(n);
            assertThat(part.pLow()[place]).isEqualTo(p[0]);
            assertThat(part.pHigh()[place]).isEqualTo(p[p.length - 1]);
            assertThat(part.nLow()[place]).isEqualTo(n[0]);
            assertThat(part.nHigh()[place]).isEqualTo(n[n.length - 1]);
            from = to;
        }
        assertThat(from).isEqualTo(end);
        compareLanes(part.lanes(), part.tickCount(), first, end);
    }

    private void compareLanes(TraceLanes.Part lanes, int grain, int first, int end) {
        int from = first;
        for (int place = 0; place < lanes.t().length; place++) {
            int to = place + 1 < lanes.t().length ? (int) Math.round(lanes.t()[place + 1] / PERIOD_S) : end;
            int states = 0;
            long active = 0;
            for (int i = from; i < to; i++) {
                states |= 1 << state[i];
                active |= codes[i];
            }
            assertThat(lanes.state()[place]).isEqualTo(states);
            assertThat(lanes.codes()[place]).isEqualTo(active);
            if (grain == 1) {
                assertThat(Integer.bitCount(states)).isEqualTo(1);
            }
            from = to;
        }
        assertThat(from).isEqualTo(end);
        assertThat(lanes.t().length).isLessThanOrEqualTo(2 * ((end - first) / grain + 2));
    }

    @Test
    void shouldGiveTheExtremesOfEveryPlaceAtAnyZoom() {
        record(TICKS);
        for (int i = 0; i < 300; i++) {
            int points = 1 + random.nextInt(2400);
            int first = random.nextInt(TICKS);
            int width = (int) Math.pow(TICKS, random.nextDouble());
            int end = Math.min(TICKS, first + Math.max(1, width));

            Trace.Part part = trace.part(timeS(first), timeS(end - 1), points);

            assertThat(part.t().length).isLessThanOrEqualTo(points);
            assertThat(part.tickCount() == 1).isEqualTo(end - first <= points);
            compare(part, first, end);
        }
    }

    @Test
    void shouldGiveTheWholeRunWhereMoreIsAsked() {
        record(TICKS);
        Trace.Part part = trace.part(-1e9, 1e9, 500);
        compare(part, 0, TICKS);
        assertThat(part.endS()).isEqualTo(timeS(TICKS - 1));
    }

    @Test
    void shouldKeepPlacesWhileThePictureMoves() {
        record(TICKS);
        Trace.Part one = trace.part(timeS(10_000), timeS(40_000), 1000);
        Trace.Part moved = trace.part(timeS(10_123), timeS(40_123), 1000);
        assertThat(moved.tickCount()).isEqualTo(one.tickCount());
        // All but the first and the last, which are cut off at the edge.
        int shift = Arrays.binarySearch(one.t(), moved.t()[1]);
        assertThat(shift).isPositive();
        for (int i = 1; shift + i < one.t().length; i++) {
            assertThat(moved.t()[i]).isEqualTo(one.t()[shift + i - 1]);
            assertThat(moved.pLow()[i]).isEqualTo(one.pLow()[shift + i - 1]);
        }
    }

    @Test
    void shouldBeEmptyWhereTheRunIsNot() {
        record(70);
        assertThat(trace.part(10, 20, 100).t()).isEmpty();
        assertThat(trace.part(-20, -10, 100).t()).isEmpty();
        assertThat(trace.part(0.0021, 0.0022, 100).t()).isEmpty();
        compare(trace.part(0, 0, 100), 0, 1);
        compare(trace.part(0, 1, 1), 0, 70);
    }

    @Test
    void shouldTellTheNextAndTheLastChangeOfThePumpState() {
        record(TICKS);
        for (int i = 0; i < 100; i++) {
            int middle = 10 + random.nextInt(TICKS - 20);
            int before = middle - 1;
            while (before > 0 && state[before] == state[before - 1]) {
                before--;
            }
            int after = middle + 2;
            while (after < TICKS && state[after] == state[after - 1]) {
                after++;
            }
            // Half a tick beside, so that rounding decides nothing.
            Trace.Part part = trace.part(timeS(middle) + 0.0005, timeS(middle) + 0.0005, 1);
            if (before == 0) {
                assertThat(part.stateBeforeS()).isNull();
            } else {
                assertThat(part.stateBeforeS()).isEqualTo(timeS(before));
            }
            if (after == TICKS) {
                assertThat(part.stateAfterS()).isNull();
            } else {
                assertThat(part.stateAfterS()).isEqualTo(timeS(after));
            }
        }
    }

    @Test
    void shouldCountAContactAsLiveAsTheControllerDoes() {
        record(TICKS);
        assertThat(trace.part(1, 2, 4000).lanes().contact()).containsOnly(2);
        assertThat(trace.part(30, 40, 4000).lanes().contact()).containsOnly(1);
        assertThat(trace.part(0, 0.04, 4000).lanes().main()).containsOnly(2);
    }
}
