package linehold.controller.statespace;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayDeque;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.Locale;
import java.util.Set;
import linehold.controller.Controller;
import linehold.controller.DrivePermission;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.Requirement;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.safety.SelfTestState;
import linehold.controller.safety.TroubleCode;
import linehold.controller.statespace.ControllerMemory.Saved;
import linehold.controller.switching.PumpState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;

/**
 * Every state the controller can reach from power-up, breadth first, over all combinations of abstracted inputs, and what
 * must hold in each. The real controller steps; {@link Abstraction} says which states count as one, and of each such class
 * the first state found stands for all. Steps of 5 ms, 100 ms and 3 s let every timer be seen both run out and not.
 * Left out: pump current (not fitted), noise on the pickup, prediction from falling speed, the brake, and the limit of
 * relay operations; random inputs cover those elsewhere.
 */
class StateSpaceTest {
    private static final double RPM = Math.PI / 30;
    private static final double PULSE_RAD = 2 * Math.PI / 120;
    private static final double HOLD_PA = 4e5;
    private static final double ON = 500 * RPM;
    private static final double STANDSTILL = 100 * RPM;
    private static final double BUS = 13;

    /** Each band of speed; the band between switching on and off stands for itself by its edges, rpm. */
    private static final double[] SPEEDS_RPM = {0, 300, 500, 700, 1200};

    private static final double[] FEW_SPEEDS_RPM = {0, 300, 1200};
    /** Below hold; holds, but asks for help and is too low to hand over; high enough; NaN is a lost sender. */
    private static final double[] PRESSURES_BAR = {1, 4.1, 8, Double.NaN};

    private static final long[] STEPS_NS = {5_000_000, 100_000_000, 3_000_000_000L};
    private static final long RESTRICTING = TroubleCode.PRESSURE_LOST_MOVING.bit()
            | TroubleCode.PRESSURE_LOST_STANDING.bit()
            | TroubleCode.PUMP_FEED_LOST.bit()
            | TroubleCode.PRIME_FAILED.bit();
    /** Written at every step before it is read, never read for a decision, or without a part in the explored car. */
    private static final Set<String> LEFT_OUT = Set.of(("signs situation decision frame"
                    + " codes.counts codes.firstNs codes.lastNs codes.lastCycle codes.frames"
                    + " feed.current feed.voltage.fed feed.voltage.full feed.voltage.judgeable"
                    + " feed.voltage.mainShows feed.voltage.standbyShows"
                    + " feed.selfTest.mainStuckOff feed.selfTest.standbyStuckOff feed.selfTest.voltageStays"
                    + " lateTick noisyPickup pickupLost pump.reason pump.coolDowns pressureLoss.letGo"
                    + " senderMotion.alone senderMotion.aloneSinceNs senderMotion.handOver senderMotion.handOverOpen"
                    + " shaftSpeed.acceptedEdges shaftSpeed.extrapolatedRadPerS shaftSpeed.fellTooFast"
                    + " shaftSpeed.measuredMiddleNs shaftSpeed.measuredSlope shaftSpeed.overdue"
                    + " shaftSpeed.rejectedEdges shaftSpeed.rejectedNow shaftSpeed.slope shaftSpeed.slopeRadPerS2"
                    + " shaftSpeed.speedRadPerS standstillWithoutPickup")
            .split(" "));

    private static final long ALWAYS_LATE = TroubleCode.LATE_TICK.bit();

    /** What the outside of the controller remembers, and what the controller last decided. */
    private record World(
            long nowNs,
            long edges,
            long lastEdgeNs,
            boolean fed,
            PumpState state,
            DrivePermission permission,
            long activeCodes,
            double pressurePa,
            double radPerS) {}

    private record Reached(Saved memory, World world) {}

    private final Inputs in = new Inputs();
    private final Outputs out = new Outputs();
    private final Set<String> known = new HashSet<>();
    private final ArrayDeque<Reached> left = new ArrayDeque<>();
    private final Set<PumpState> states = EnumSet.noneOf(PumpState.class);
    private final Set<SelfTestState> tests = EnumSet.noneOf(SelfTestState.class);
    private long codesSeen;
    private long transitions;
    private Controller controller;
    private ControllerMemory memory;
    private Abstraction abstraction;
    private int[] looksAt;
    private long[] words;
    private boolean normallyClosed;

    @Test
    @Requirement({"LH-SW-1", "LH-SW-9", "LH-PR-2", "LH-PR-3", "LH-RL-3", "LH-RL-5", "LH-RL-6"})
    void shouldBeSafeInEveryReachableStateWithAStandbyRelay() {
        shouldBeSafeInEveryReachableState(true);
    }

    /** Nearly all of its states are states of the car with a standby relay too, so it runs on demand. */
    @Test
    @EnabledIfSystemProperty(named = "linehold.statespace", matches = "both")
    @Requirement({"LH-SW-1", "LH-SW-9", "LH-PR-2", "LH-PR-3", "LH-RL-3", "LH-RL-5", "LH-RL-6"})
    void shouldBeSafeInEveryReachableStateWithoutAStandbyRelay() {
        shouldBeSafeInEveryReachableState(false);
    }

    void shouldBeSafeInEveryReachableState(boolean standbyFitted) {
        explore(standbyFitted);
        System.out.printf(
                Locale.ROOT,
                "State space, standby relay %s: %d states, %d transitions.%n",
                standbyFitted ? "fitted" : "not fitted",
                known.size(),
                transitions);
        // The net must have caught something.
        assertThat(states).isEqualTo(EnumSet.allOf(PumpState.class));
        assertThat(tests).isEqualTo(EnumSet.allOf(SelfTestState.class));
        long expected = RESTRICTING
                | TroubleCode.SENDER_LOST.bit()
                | TroubleCode.SENDER_SUSPECT.bit()
                | TroubleCode.MAIN_RELAY_STUCK_OFF.bit()
                | TroubleCode.MAIN_RELAY_WELDED.bit()
                | TroubleCode.MAIN_READBACK_LOST.bit()
                | TroubleCode.UNIT_RESTARTED.bit();
        assertThat(codesSeen & expected).isEqualTo(expected);
    }

    private void explore(boolean standbyFitted) {
        normallyClosed = standbyFitted;
        controller = new Controller(Calibration.builder()
                .set(Key.STANDBY_RELAY_FITTED, standbyFitted)
                .set(Key.NORMALLY_CLOSED_CONTACT, normallyClosed)
                .set(Key.PULSES_PER_REVOLUTION, 120)
                .set(Key.SWITCH_OFF_SPEED, 700 * RPM)
                .set(Key.FALLING_SPEED_PREDICTION, false)
                .set(Key.RELAY_OPERATIONS_PER_MINUTE, 120)
                .set(Key.RANGE_FITTED, false)
                .set(Key.SENDER_LOST_CONFIRM_TIME, 0)
                .set(Key.HIGHEST_FALL_RATE, 1e6 * RPM)
                .build());
        memory = new ControllerMemory(controller, LEFT_OUT);
        abstraction = new Abstraction(memory);
        looksAt = abstraction.looksAt();
        words = new long[memory.paths().size()];
        in.busVolts = BUS;
        in.pressureSenderSupplyVolts = 5;
        in.oilTemperatureC = 60;
        World start = new World(0, 0, 0, false, PumpState.OFF, DrivePermission.WITHHELD, 0, Double.NaN, 0);
        left.add(new Reached(memory.save(), start));
        while (!left.isEmpty()) {
            Reached from = left.remove();
            // Key off and in prime no speed but standstill is asked for: one that turns and one that is fast do.
            boolean bySpeed =
                    from.world().state() != PumpState.OFF && from.world().state() != PumpState.PRIME;
            for (double rpm : bySpeed ? SPEEDS_RPM : FEW_SPEEDS_RPM) {
                for (double bar : PRESSURES_BAR) {
                    visit(from, rpm, bar);
                }
            }
        }
    }

    private void visit(Reached from, double rpm, double bar) {
        // The pedal matters only to what is held until it is let go.
        int combinations = (from.world().activeCodes() & RESTRICTING) == 0 ? 4 : 8;
        for (int bits = 0; bits < combinations; bits++) {
            for (long stepNs : STEPS_NS) {
                memory.restore(from.memory());
                in.keyOn = (bits & 1) == 0;
                in.torqueRequestNm = (bits & 4) == 0 ? 50 : 0;
                World to = step(from.world(), rpm, bar, (bits & 2) == 0, stepNs);
                transitions++;
                check(from.world(), to);
                memory.read(looksAt, words);
                if (known.add(abstraction.of(words, to.nowNs()))) {
                    left.add(new Reached(memory.save(), to));
                    states.add(out.state);
                    tests.add(out.selfTest);
                    codesSeen |= out.activeCodes;
                    checkWayOut(to);
                }
            }
        }
    }

    /** A step of the controller at a steady speed: its edges are there as if the shaft had turned so all the while. */
    private World step(World from, double rpm, double bar, boolean readbackAgrees, long stepNs) {
        long nowNs = from.nowNs() + stepNs;
        long pulses = Math.round(rpm * RPM * (nowNs - from.lastEdgeNs()) * 1e-9 / PULSE_RAD);
        in.pickupEdgeCount = from.edges() + pulses;
        in.pickupLastEdgeNs = pulses > 0 ? nowNs : from.lastEdgeNs();
        in.pressureSenderVolts = 0.5 + 4 * bar / 20;
        in.mainContactVolts = from.fed() == readbackAgrees ? BUS : 0;
        in.standbyContactVolts = in.mainContactVolts;
        controller.step(nowNs, in, out);
        return new World(
                nowNs,
                in.pickupEdgeCount,
                in.pickupLastEdgeNs,
                out.pumpWanted,
                out.state,
                out.permission,
                out.activeCodes,
                out.linePressurePa,
                out.shaftSpeedRadPerS);
    }

    private void check(World from, World to) {
        boolean granted = to.permission() == DrivePermission.GRANTED;

        // Drive is never granted while pressure is known to be below hold pressure: standing, at once; turning, once
        // the
        // confirm time has passed with edges.
        boolean low = to.pressurePa() < HOLD_PA;
        boolean lowForLong = low && from.pressurePa() < HOLD_PA && to.nowNs() - from.nowNs() >= 100_000_000;
        boolean turning = to.radPerS() >= STANDSTILL && from.radPerS() >= STANDSTILL;
        if (granted && low && (to.radPerS() < STANDSTILL || lowForLong && turning)) {
            throw broken("drive granted without pressure", from, to);
        }
        // The pump is never commanded off below the switch-on speed, but for the moments of the key-on test.
        boolean alive = to.state() != PumpState.OFF;
        boolean testing = to.state() == PumpState.PRIME && out.selfTest == SelfTestState.RUNNING;
        if (alive && to.radPerS() < ON && !out.pumpWanted && !testing) {
            throw broken("pump off below switch-on speed", from, to);
        }
        // Nor is drive granted by a restart alone: the key must have been on.
        boolean primes = from.state() == PumpState.OFF || from.state() == PumpState.PRIME;
        if (granted && primes && !in.keyOn) {
            throw broken("drive granted with the key off", from, to);
        }
        boolean mainOn = out.mainRelayCoil != normallyClosed;
        if (out.pumpWanted != (mainOn || out.standbyRelayCoil)) {
            throw broken("coils do not do what is wanted", from, to);
        }
        // Drive returns only from PRIME, from an engagement that is over, or with the driver letting go.
        boolean restricted = (from.activeCodes() & RESTRICTING) != 0;
        if (granted && restricted && in.torqueRequestNm != 0) {
            throw broken("drive given back under a pressed pedal", from, to);
        }
        if (granted && (to.activeCodes() & RESTRICTING) != 0) {
            throw broken("drive granted under a code that restricts it", from, to);
        }
        if (granted && (to.state() == PumpState.PRIME || out.selfTest == SelfTestState.RUNNING)) {
            throw broken("drive granted before prime and key-on test are over", from, to);
        }
    }

    private static AssertionError broken(String what, World from, World to) {
        return new AssertionError(what + ": " + from + "\n -> " + to);
    }

    /** No state is a trap: key off at rest, key on again with a sound car, and drive is granted without a code. */
    private void checkWayOut(World trapped) {
        in.keyOn = false;
        in.torqueRequestNm = 0;
        World world = trapped;
        for (int i = 0; i < 3; i++) {
            world = step(world, 0, 0, true, STEPS_NS[2]);
        }
        if (world.state() != PumpState.OFF) {
            throw new AssertionError("key off does not end " + trapped);
        }
        in.keyOn = true;
        for (int i = 0; i < 40; i++) {
            world = step(world, i < 20 ? 0 : 300, i < 10 ? 0 : 8, true, i < 20 ? STEPS_NS[0] : STEPS_NS[1]);
        }
        boolean free = world.permission() == DrivePermission.GRANTED && (world.activeCodes() & ~ALWAYS_LATE) == 0;
        if (!free) {
            throw new AssertionError("key off and on do not free " + trapped + ": " + world);
        }
    }
}
