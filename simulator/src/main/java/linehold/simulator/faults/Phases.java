package linehold.simulator.faults;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.BiPredicate;
import linehold.controller.calibration.Key;
import linehold.controller.switching.PumpState;
import linehold.simulator.build.Build;
import linehold.simulator.build.Gear;
import linehold.simulator.drive.RowDrive;
import linehold.simulator.faults.HealthyRun.Tick;
import linehold.simulator.run.Engagement;

/** Where in which drive each phase is, found in what the healthy car does. */
final class Phases {
    /** Below this the shaft stands, rad/s. */
    private static final double STANDING_RAD_PER_S = 0.5;
    /** Steeper than any braking of rolling wheels, rad/s². */
    private static final double LOCKED_RAD_PER_S2 = 200;
    /** Torque that counts as a demand, N·m. */
    private static final double DEMAND_NM = 5;

    private final List<RowDrive> drives;
    private final double fullTorqueNm;
    private final double switchOnRadPerS;

    Phases(Build build) {
        PhaseDrives made = new PhaseDrives(build);
        drives = made.all();
        fullTorqueNm = made.fullTorqueNm();
        switchOnRadPerS = build.calibration().get(Key.SWITCH_ON_SPEED);
    }

    List<RowDrive> drives() {
        return drives;
    }

    /** Place of the phase's drive in {@link #drives}. */
    int driveOf(Phase phase) {
        return switch (phase) {
            case KEY_ON_PRIME, STANDING_IN_GEAR, PULLING_AWAY, HAND_OVER_UP, GEAR_CHANGE, CRUISING, NORMAL_BRAKING -> 0;
            case HOLD_ON_HILL, ROLL_BACK -> 1;
            case CREEPING, REVERSING -> 2;
            case PANIC_STOP -> 3;
            case KEY_OFF_ROLLING -> 4;
        };
    }

    /**
     * The instant at which a fault begins in a phase, s; empty if the healthy car never was in it.
     *
     * @param healthy the healthy run of the phase's drive
     */
    OptionalDouble startS(Phase phase, HealthyRun healthy) {
        return switch (phase) {
            // A third of the way through: the pump runs and the line is not there yet.
            case KEY_ON_PRIME ->
                first(healthy, (before, now) -> now.state() != PumpState.PRIME && now.keyOn(), t -> t / 3);
            case STANDING_IN_GEAR -> first(healthy, (b, now) -> engaged(now) && turning(now), t -> t - 1);
            case CREEPING -> first(healthy, (b, now) -> creeping(now), t -> t + 0.5);
            case PULLING_AWAY -> first(healthy, (b, now) -> pullingAway(now), t -> t);
            case HAND_OVER_UP -> first(healthy, Phases::handsOver, t -> t - 0.05);
            case GEAR_CHANGE -> first(healthy, (b, now) -> b.gear() == Gear.FIRST && now.gear() == Gear.TOP, t -> t);
            case CRUISING -> first(healthy, (b, now) -> cruising(now), t -> t + 1);
            case NORMAL_BRAKING -> first(healthy, (b, now) -> now.braking() && turning(now), t -> t + 0.5);
            case PANIC_STOP -> first(healthy, (b, now) -> now.shaftSlopeRadPerS2() < -LOCKED_RAD_PER_S2, t -> t);
            case HOLD_ON_HILL -> first(healthy, (b, now) -> !turning(now) && demanded(now), t -> t + 1);
            case ROLL_BACK -> first(healthy, (b, now) -> now.shaftRadPerS() < -STANDING_RAD_PER_S, t -> t + 0.3);
            case REVERSING -> first(healthy, (b, now) -> reversing(now), t -> t + 0.5);
            case KEY_OFF_ROLLING -> first(healthy, (b, now) -> !now.keyOn() && turning(now), t -> t + 0.1);
        };
    }

    private interface Shift {
        double of(double timeS);
    }

    private static OptionalDouble first(HealthyRun run, BiPredicate<Tick, Tick> here, Shift shift) {
        for (int i = 1; i < run.ticks.size(); i++) {
            if (here.test(run.ticks.get(i - 1), run.ticks.get(i))) {
                return OptionalDouble.of(shift.of(run.ticks.get(i).timeS()));
            }
        }
        return OptionalDouble.empty();
    }

    private static boolean turning(Tick tick) {
        return Math.abs(tick.shaftRadPerS()) >= STANDING_RAD_PER_S;
    }

    private static boolean engaged(Tick tick) {
        return tick.engagement() == Engagement.ENGAGED;
    }

    private static boolean demanded(Tick tick) {
        return Math.abs(tick.torqueNm()) >= DEMAND_NM;
    }

    private boolean creeping(Tick tick) {
        return engaged(tick)
                && turning(tick)
                && tick.shaftSlopeRadPerS2() == 0
                && tick.shaftRadPerS() > 0
                && tick.shaftRadPerS() < switchOnRadPerS;
    }

    private boolean pullingAway(Tick tick) {
        return engaged(tick) && tick.torqueNm() >= 0.95 * fullTorqueNm && tick.shaftRadPerS() < switchOnRadPerS;
    }

    private static boolean handsOver(Tick before, Tick now) {
        return before.state() != PumpState.INTERNAL && now.state() == PumpState.INTERNAL;
    }

    private static boolean cruising(Tick tick) {
        return engaged(tick)
                && tick.gear() == Gear.TOP
                && tick.state() == PumpState.INTERNAL
                && tick.shaftSlopeRadPerS2() == 0;
    }

    private static boolean reversing(Tick tick) {
        return engaged(tick) && tick.gear() == Gear.REVERSE && turning(tick);
    }
}
