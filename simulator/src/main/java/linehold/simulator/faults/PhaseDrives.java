package linehold.simulator.faults;

import java.util.List;
import linehold.controller.Range;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.build.Gear;
import linehold.simulator.circuit.ElementCapacity;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.RowDrive;
import linehold.simulator.drive.TripBuilder;
import linehold.simulator.drivetrain.Kinematics;
import linehold.simulator.drivetrain.RoadLoad;

/**
 * The drives a fault is tried in: short, each with more driving after its phases, so that what a fault leaves behind shows
 * at the next stop, pull-away and hand-over. Invented, except that the panic stop is the built-in one.
 */
final class PhaseDrives {
    /** Name of the built-in drive that has the panic stop. */
    private static final String PANIC_STOP = "panic-stop-dry-slow";

    private static final double KM_H = 1 / 3.6;
    private static final double HILL_PERCENT = 6;
    /** Line pressure over hold pressure at which full torque has the build's safety factor (assumed). */
    private static final double FULL_TORQUE_OVER_HOLD = 1.25;

    private final Build build;

    PhaseDrives(Build build) {
        this.build = build;
    }

    List<RowDrive> all() {
        return List.of(town(), hill(), parking(), panicStop(), keyOff());
    }

    /**
     * The torque called full: what first gear carries with the safety factor at 1.25 times the hold pressure, at most the
     * motor's peak, N·m. The electric pump of a build that holds can make that pressure at every oil temperature.
     */
    double fullTorqueNm() {
        double pressurePa = FULL_TORQUE_OVER_HOLD * build.limits().holdPressurePa();
        double touchPa = build.element(Element.LOW_BAND).touchPressurePa();
        double carriedNm = new ElementCapacity(build.element(Element.LOW_BAND))
                        .motorTorquePerPa(build.limits().safetyFactor())
                * Math.max(0, pressurePa - touchPa);
        return Math.min(carriedNm, build.car().motorPeakTorqueNm());
    }

    private RowDrive town() {
        // Full torque up to nine tenths of the shift speed, then gently through the gear change.
        double fullTo = new Kinematics(build.car(), build.gears())
                .roadSpeedMPerS(0.9 * build.gears().shiftUpRadPerS(), Gear.FIRST);
        double top = 1.4 * fullTo;
        return start().reach(fullTo, fullTo / fullAccelerationMPerS2(fullTo))
                .reach(top, top - fullTo)
                .cruise(7)
                .reach(0, top / 3)
                .stand(2)
                .reach(15 * KM_H, 4)
                .cruise(1)
                .reach(0, 3)
                .finish("fault-town", "invented: full torque, gear change, cruise, brake, and on");
    }

    /** Constant acceleration at which the torque never exceeds the full one: the last instant has the most drag. */
    private double fullAccelerationMPerS2(double endSpeedMPerS) {
        RoadLoad road = new RoadLoad(build.car());
        double ratio = new Kinematics(build.car(), build.gears()).signedRatio(Gear.FIRST);
        double noneNm = road.askedTorqueNm(road.wheelForceN(endSpeedMPerS, 0, 0), ratio);
        double oneNm = road.askedTorqueNm(road.wheelForceN(endSpeedMPerS, 1, 0), ratio);
        return (fullTorqueNm() - noneNm) / (oneNm - noneNm);
    }

    private RowDrive hill() {
        return start().onGrade(HILL_PERCENT)
                .stand(1)
                .holdByMotor(3)
                .coast(0.5)
                .cruise(1)
                .reach(0, 0.5)
                .holdByMotor(0.5)
                .reach(15 * KM_H, 5)
                .cruise(2)
                .reach(0, 3)
                .holdByMotor(2)
                .finish("fault-hill", "invented: held by the motor on a slope of 6 %, rolled back, driven up");
    }

    private RowDrive parking() {
        double engageS = TripBuilder.ENGAGE_S;
        return start().reach(3 * KM_H, 2)
                .cruise(4)
                .reach(0, 1)
                .stand(1)
                .select(Range.REVERSE)
                .stand(engageS)
                .reach(-5 * KM_H, 3)
                .cruise(3)
                .reach(0, 2)
                .stand(1)
                .select(Range.DRIVE)
                .stand(engageS)
                .reach(6 * KM_H, 3)
                .cruise(1)
                .reach(0, 2)
                .finish("fault-parking", "invented: creeping, backward, and on");
    }

    private RowDrive panicStop() {
        return BuiltInDrives.all(build).stream()
                .filter(drive -> drive.name().equals(PANIC_STOP))
                .findFirst()
                .orElseThrow();
    }

    private RowDrive keyOff() {
        return start().reach(20 * KM_H, 5)
                .cruise(3)
                .keyOff()
                .coast(2)
                .reach(0, 4)
                .finish("fault-key-off", "invented: the key turned off while the car rolls");
    }

    private TripBuilder start() {
        return TripBuilder.started(build.car(), build.gears());
    }
}
