package linehold.simulator.drive;

import java.util.List;
import linehold.controller.Range;
import linehold.simulator.build.CarSpec;
import linehold.simulator.build.Gear;
import linehold.simulator.build.GearsSpec;
import linehold.simulator.drivetrain.Kinematics;

/**
 * Invented manoeuvres that no published schedule has and that every car meets: they live around standstill, where the
 * pumps hand over. Speeds, slopes and times are our own choice; torques follow from the car.
 *
 * <p>The rates of the panic stops are those of a motor tied to locked wheels: about 4,500 rpm/s on dry road, where the
 * tyre drives the wheel on until the brake wins over its grip, and about 15,000 rpm/s on ice, where only the inertia of
 * motor and wheels is to be stopped; 0.15 s of brake build-up before (order of magnitude from the moment balance of a
 * braked wheel with 3 kg·m² of motor inertia reflected to it).
 */
public final class Manoeuvres {
    static final double RPM = 2 * Math.PI / 60;
    /** How fast the shaft falls when the wheels lock on a dry road, rad/s². */
    public static final double DRY_RATE_RAD_PER_S2 = 4500 * RPM;
    /** The same on ice, rad/s². */
    public static final double ICE_RATE_RAD_PER_S2 = 15000 * RPM;
    /** Time in which the brakes build up their pressure, s. */
    public static final double BRAKE_BUILD_UP_S = 0.15;

    private static final double KM_H = 1 / 3.6;
    private static final double PANIC_SPEED_M_PER_S = 60 * KM_H;
    private static final double SLOW_PANIC_SHAFT_RAD_PER_S = 1000 * RPM;
    private static final double HILL_PERCENT = 6;

    private final CarSpec car;
    private final GearsSpec gears;

    Manoeuvres(CarSpec car, GearsSpec gears) {
        this.car = car;
        this.gears = gears;
    }

    List<RowDrive> all() {
        double slow = new Kinematics(car, gears).roadSpeedMPerS(SLOW_PANIC_SHAFT_RAD_PER_S, Gear.FIRST);
        double fast = PANIC_SPEED_M_PER_S;
        return List.of(
                stopAndGo(),
                hillHold(),
                parking(),
                panicStop("panic-stop-dry", fast, DRY_RATE_RAD_PER_S2, 6),
                panicStop("panic-stop-dry-slow", slow, DRY_RATE_RAD_PER_S2, 6),
                panicStop("panic-stop-ice", fast, ICE_RATE_RAD_PER_S2, 20),
                panicStop("panic-stop-ice-slow", slow, ICE_RATE_RAD_PER_S2, 8));
    }

    /** A traffic jam: the speed passes the switch-over window again and again, with short stands and without. */
    private RowDrive stopAndGo() {
        return start().reach(6 * KM_H, 3)
                .cruise(2)
                .reach(0, 2)
                .stand(2)
                .reach(12 * KM_H, 4)
                .cruise(4)
                .reach(0, 3)
                .stand(5)
                .reach(20 * KM_H, 6)
                .cruise(6)
                .reach(5 * KM_H, 5)
                .reach(18 * KM_H, 5)
                .cruise(4)
                .reach(4 * KM_H, 4)
                .cruise(3)
                .reach(0, 1)
                .stand(1)
                .reach(40 * KM_H, 13)
                .cruise(5)
                .reach(0, 7)
                .stand(8)
                .reach(10 * KM_H, 3)
                .reach(9 * KM_H, 4)
                .reach(11 * KM_H, 4)
                .reach(8 * KM_H, 3)
                .reach(0, 2)
                .stand(3)
                .reach(55 * KM_H, 20)
                .cruise(8)
                .reach(0, 9)
                .stand(3)
                .finish("stop-and-go", "invented: a traffic jam");
    }

    /** A slope of 6 %: the brake is let go, the car rolls back against first for a second, is caught, and pulls away. */
    private RowDrive hillHold() {
        TripBuilder trip = start().onGrade(HILL_PERCENT);
        for (int i = 0; i < 2; i++) {
            trip.stand(4).coast(0.5).cruise(0.5).reach(15 * KM_H, 5.5).cruise(5).reach(0, 4);
        }
        return trip.stand(3).coast(0.6).reach(0, 0.6).finish("hill-hold", "invented: rolling back on a 6 % slope");
    }

    /** In and out of a parking space, a new range only at standstill and time for it to engage in the cold. */
    private RowDrive parking() {
        double engageS = TripBuilder.ENGAGE_S;
        return start().reach(7 * KM_H, 4)
                .cruise(3)
                .reach(0, 2)
                .stand(1)
                .select(Range.REVERSE)
                .stand(engageS)
                .reach(-5 * KM_H, 3)
                .cruise(3)
                .reach(0, 2)
                .stand(1)
                .select(Range.DRIVE)
                .stand(engageS)
                .reach(5 * KM_H, 3)
                .cruise(2)
                .reach(0, 2)
                .stand(1)
                .select(Range.REVERSE)
                .stand(engageS)
                .reach(-12 * KM_H, 7)
                .cruise(4)
                .reach(0, 3)
                .stand(1)
                .select(Range.NEUTRAL)
                .stand(3)
                .select(Range.DRIVE)
                .stand(engageS)
                .reach(6 * KM_H, 3)
                .reach(0, 3)
                .finish("parking", "invented: in and out of a parking space");
    }

    /** The wheels lock and stay locked until the car stands; then time for the band to engage, and on. */
    private RowDrive panicStop(String name, double speedMPerS, double rateRadPerS2, double slideS) {
        double moderate = 0.8;
        return start().reach(speedMPerS, speedMPerS / moderate)
                .cruise(6)
                .coast(0.3)
                .lockWheels(rateRadPerS2, BRAKE_BUILD_UP_S)
                .stand(slideS + TripBuilder.ENGAGE_S)
                .reach(30 * KM_H, 30 * KM_H / moderate)
                .cruise(3)
                .reach(0, 8)
                .finish(name, "invented: wheels locked from " + Math.round(speedMPerS / KM_H) + " km/h");
    }

    private TripBuilder start() {
        return TripBuilder.started(car, gears);
    }
}
