package linehold.controller;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumSet;
import java.util.Set;
import java.util.SplittableRandom;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.safety.SelfTestState;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What must hold whatever the inputs are. The seed is the argument: a failure is run again by it. */
class RandomInputsTest {
    private static final int STEPS = 60_000;
    private static final double HOLD_PA = Key.HOLD_PRESSURE.defaultValue();
    private static final double ON = Key.SWITCH_ON_SPEED.defaultValue();
    private static final long RESTRICTING = TroubleCode.PRESSURE_LOST_MOVING.bit()
            | TroubleCode.PRESSURE_LOST_STANDING.bit()
            | TroubleCode.PUMP_FEED_LOST.bit()
            | TroubleCode.PRIME_FAILED.bit();
    private static final double STANDSTILL = Key.STANDSTILL_SPEED.defaultValue();

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    @Requirement({"LH-TK-1", "LH-SW-1", "LH-SW-5", "LH-PR-2", "LH-PR-3", "LH-RL-1", "LH-RL-3", "LH-RL-4", "LH-RL-5"})
    void shouldKeepTheClutchesSafeUnderAnyInputs(long seed) {
        boolean normallyClosed = seed % 2 == 0;
        Controller controller = new Controller(Calibration.builder()
                .set(Key.STANDBY_RELAY_FITTED, seed > 2)
                .set(Key.PUMP_CURRENT_FITTED, seed > 4)
                .set(Key.SENDER_FITTED, seed < 8)
                .set(Key.NORMALLY_CLOSED_CONTACT, normallyClosed)
                .build());
        RandomInputs inputs = new RandomInputs(new SplittableRandom(seed));
        Outputs out = new Outputs();
        Set<PumpState> seen = EnumSet.noneOf(PumpState.class);
        Set<DrivePermission> given = EnumSet.noneOf(DrivePermission.class);
        long lowSinceNs = Long.MAX_VALUE;
        int longLows = 0;
        for (int i = 0; i < STEPS; i++) {
            String where = "seed " + seed + " step " + i;
            long nowNs = inputs.next();
            controller.step(nowNs, inputs.in, out);
            seen.add(out.state);
            given.add(out.permission);
            check(out, normallyClosed, where);
            // Turning without pressure: at 100 rpm and more an edge comes each 150 ms, and 20 ms confirm the loss.
            boolean lowTurning = out.linePressurePa < HOLD_PA && out.shaftSpeedRadPerS >= STANDSTILL;
            lowSinceNs = lowTurning ? Math.min(lowSinceNs, nowNs) : Long.MAX_VALUE;
            if (lowTurning && nowNs - lowSinceNs >= 200_000_000) {
                longLows++;
                assertThat(out.permission).as(where).isNotEqualTo(DrivePermission.GRANTED);
            }
        }
        // The net must have caught something.
        assertThat(seen).isEqualTo(EnumSet.allOf(PumpState.class));
        assertThat(given).isEqualTo(EnumSet.allOf(DrivePermission.class));
        assertThat(longLows).isGreaterThan(seed < 8 ? 100 : -1);
    }

    private static void check(Outputs out, boolean normallyClosed, String where) {
        assertThat(out.shaftSpeedRadPerS).as(where).isGreaterThanOrEqualTo(0).isFinite();
        boolean testing = out.state == PumpState.PRIME && out.selfTest == SelfTestState.RUNNING;
        boolean alive = out.state != PumpState.OFF && !testing;
        if (alive && out.shaftSpeedRadPerS < ON) {
            assertThat(out.pumpWanted).as(where).isTrue();
        }
        if (alive && out.linePressurePa < Key.HELP_PRESSURE.defaultValue()) {
            assertThat(out.pumpWanted).as(where).isTrue();
        }
        if (out.linePressurePa < HOLD_PA && out.shaftSpeedRadPerS < STANDSTILL) {
            assertThat(out.permission).as(where).isEqualTo(DrivePermission.WITHHELD);
        }
        boolean mainOn = out.mainRelayCoil != normallyClosed;
        assertThat(out.pumpWanted).as(where).isEqualTo(mainOn || out.standbyRelayCoil);
        if (out.standbyRelayCoil) {
            assertThat(out.pumpWanted).as(where).isTrue();
        }
        if (out.permission == DrivePermission.GRANTED) {
            assertThat(out.activeCodes & RESTRICTING).as(where).isZero();
            assertThat(out.selfTest).as(where).isNotEqualTo(SelfTestState.RUNNING);
            assertThat(out.state).as(where).isNotIn(PumpState.OFF, PumpState.PRIME);
        }
        assertThat(out.storedCodes & out.activeCodes).as(where).isEqualTo(out.activeCodes);
        switch (out.permission) {
            case GRANTED -> assertThat(out.torqueLimitNm).as(where).isInfinite();
            case REDUCED ->
                assertThat(out.torqueLimitNm)
                        .as(where)
                        .isGreaterThanOrEqualTo(0)
                        .isFinite();
            case WITHHELD -> assertThat(out.torqueLimitNm).as(where).isZero();
        }
    }
}
