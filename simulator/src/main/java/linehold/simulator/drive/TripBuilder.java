package linehold.simulator.drive;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.Range;
import linehold.simulator.build.CarSpec;
import linehold.simulator.build.Gear;
import linehold.simulator.build.GearsSpec;
import linehold.simulator.drivetrain.GearChange;
import linehold.simulator.drivetrain.Kinematics;
import linehold.simulator.drivetrain.RoadLoad;
import linehold.simulator.drivetrain.ShiftSchedule;

/**
 * Writes a drive as a driver would tell it: select, stand, reach a speed in so many seconds, coast, brake to a lock.
 *
 * <p>Within a part the acceleration is constant, so the torque jumps from part to part. As torque is linear between rows,
 * each part starts with a row at its beginning that still has the torque before, and a second row {@link #PEDAL_S} later
 * with the torque of the part: the time in which a foot moves a pedal (common practice). A gear change has a row at its
 * start, where the new element is commanded, and a row at its end; between them the ratio passes linearly from one gear
 * to the other, and with it shaft speed and torque.
 */
public final class TripBuilder {
    /** Time in which torque follows from one part of a drive to the next, s (assumed). */
    public static final double PEDAL_S = 0.2;
    /** Key on in park before the range is selected, s. */
    public static final double PARKED_S = 3;
    /** Standing in a range before the car moves, s: above the longest time that an element may take to engage in the cold. */
    public static final double ENGAGE_S = 7;
    /** Time recorded after key-off, s. */
    public static final double AFTER_KEY_OFF_S = 2;

    private static final double COAST_STEP_S = 0.5;
    private static final double BRAKE_STEP_S = 0.025;

    private final Kinematics kinematics;
    private final RoadLoad roadLoad;
    private final ShiftSchedule schedule;
    private final GearChange gearChange;
    private final List<DriveSample> rows = new ArrayList<>();

    private double nowS;
    private double speedMPerS;
    private double gradeRad;
    private double distanceM;
    private Range range = Range.PARK;
    private boolean keyOn = true;
    private boolean brakeApplied = true;
    private boolean heldByMotor;

    private TripBuilder(CarSpec car, GearsSpec gears) {
        this.kinematics = new Kinematics(car, gears);
        this.roadLoad = new RoadLoad(car);
        this.schedule = new ShiftSchedule(gears);
        this.gearChange = new GearChange(gears.shiftS());
        addRow(0, 0);
    }

    /** A drive that has begun: key on at 0 s in park, drive selected at 3 s, standing until 10 s. */
    public static TripBuilder started(CarSpec car, GearsSpec gears) {
        return new TripBuilder(car, gears).stand(PARKED_S).select(Range.DRIVE).stand(ENGAGE_S);
    }

    /** Moves the lever at standstill; the element is commanded at once. */
    public TripBuilder select(Range selected) {
        requireStanding("select a range");
        range = selected;
        changeGear(schedule.select(selected));
        return this;
    }

    /** Puts the standing car on a slope, percent, positive where forward is uphill. */
    public TripBuilder onGrade(double percent) {
        requireStanding("change the slope");
        gradeRad = Math.atan(percent / 100);
        return this;
    }

    /** Stands with the foot on the brake. */
    public TripBuilder stand(double seconds) {
        requireStanding("stand");
        return part(0, seconds, false);
    }

    /** Stands without the brake, the motor holding the car on its slope. */
    public TripBuilder holdByMotor(double seconds) {
        requireStanding("hold by the motor");
        heldByMotor = true;
        part(0, seconds, false);
        heldByMotor = false;
        return this;
    }

    /** Turns the key off where the car stands or rolls; the motor gives no torque from here on. */
    public TripBuilder keyOff() {
        keyOn = false;
        return this;
    }

    /** Reaches a speed, m/s (negative: backward), in a time at constant acceleration. */
    public TripBuilder reach(double endSpeedMPerS, double seconds) {
        return part(endSpeedMPerS, seconds, false);
    }

    /** Holds the speed. */
    public TripBuilder cruise(double seconds) {
        return part(speedMPerS, seconds, false);
    }

    /** Rolls with the motor at zero torque; the road alone slows the car down. */
    public TripBuilder coast(double seconds) {
        int steps = (int) Math.ceil(seconds / COAST_STEP_S);
        double stepS = seconds / steps;
        for (int i = 0; i < steps; i++) {
            // Midpoint rule: the deceleration changes by less than a percent within a step.
            double middle = speedMPerS + roadLoad.coastingMPerS2(speedMPerS, gradeRad) * stepS / 2;
            part(speedMPerS + roadLoad.coastingMPerS2(middle, gradeRad) * stepS, stepS, true);
        }
        return this;
    }

    /**
     * Brakes until the wheels lock. The rate of the shaft grows from zero to its full value while brake pressure builds
     * up and then stays; the torque is zero; the car slides on and stands when the caller's next part begins. The
     * schedule still commands first when the shaft falls below its speed for down, so that the band fills while the shaft
     * already stands.
     *
     * @param rateRadPerS2 rate at which the shaft slows down, rad/s², above zero
     * @param buildUpS time in which the brake pressure builds up, s
     */
    public TripBuilder lockWheels(double rateRadPerS2, double buildUpS) {
        brakeApplied = true;
        holdFromNow();
        double startS = nowS;
        double shaft = lastRow().shaftSpeedRadPerS;
        double startShaft = shaft;
        while (shaft > 0) {
            double sinceS = nowS - startS + BRAKE_STEP_S;
            // n(t) = n0 - rate * t^2 / (2 * t_b) while pressure builds up, n0 - rate * (t - t_b / 2) after
            double fallen = sinceS <= buildUpS
                    ? rateRadPerS2 * sinceS * sinceS / (2 * buildUpS)
                    : rateRadPerS2 * (sinceS - buildUpS / 2);
            double nextShaft = startShaft - fallen;
            double target = Math.max(0, nextShaft);
            double leaving = schedule.leavingSpeedRadPerS();
            if (schedule.gear() == Gear.TOP && shaft > leaving && nextShaft <= leaving) {
                target = leaving;
            }
            nowS += BRAKE_STEP_S * (shaft - target) / (shaft - nextShaft);
            shaft = target;
            if (schedule.update(shaft)) {
                gearChange.settle(kinematics.signedRatio(schedule.gear()));
            }
            addRow(shaft, 0);
        }
        speedMPerS = 0;
        return this;
    }

    /** Ends the drive: park, key off, and a little after. */
    public RowDrive finish(String name, String source) {
        stand(1).select(Range.PARK).stand(1);
        keyOn = false;
        stand(AFTER_KEY_OFF_S);
        return new RowDrive(name, source, distanceM, rows);
    }

    private TripBuilder part(double endSpeedMPerS, double seconds, boolean coasting) {
        double startS = nowS;
        double endS = nowS + seconds;
        double startSpeed = speedMPerS;
        double acceleration = (endSpeedMPerS - startSpeed) / seconds;
        boolean standing = startSpeed == 0 && endSpeedMPerS == 0 && !heldByMotor;
        boolean driven = !standing && !coasting;
        if (driven) {
            shiftIfDue();
        }
        double offsetNm = lastRow().motorTorqueNm - torqueNm(driven, acceleration);
        double pedalS = offsetNm == 0 ? 0 : Math.min(PEDAL_S, seconds / 2);
        double pedalEndS = startS + pedalS;
        brakeApplied = standing || driven && needsBrakes(acceleration);
        holdFromNow();
        while (nowS < endS) {
            double nextS = endS;
            nextS = earlier(nextS, pedalEndS);
            nextS = earlier(nextS, gearChange.endS());
            double crossingS = startS + (leavingSpeedMPerS() - startSpeed) / acceleration;
            nextS = earlier(nextS, crossingS);
            distanceM += Math.abs(speedMPerS) * (nextS - nowS) / 2;
            speedMPerS = nextS == endS ? endSpeedMPerS : startSpeed + acceleration * (nextS - startS);
            distanceM += Math.abs(speedMPerS) * (nextS - nowS) / 2;
            nowS = nextS;
            if (!standing && (nextS == crossingS || nextS == endS)) {
                shiftIfDue();
            }
            double pedal = nowS < pedalEndS ? (pedalEndS - nowS) / pedalS : 0;
            brakeApplied |= driven && nowS < endS && needsBrakes(acceleration);
            addRow(
                    kinematics.shaftSpeedRadPerS(speedMPerS, gearChange.ratio(nowS)),
                    torqueNm(driven, acceleration) + offsetNm * pedal);
        }
        return this;
    }

    private double earlier(double candidateS, double eventS) {
        // An event within a nanosecond of now has happened.
        return eventS > nowS + 1e-9 && eventS < candidateS ? eventS : candidateS;
    }

    private double leavingSpeedMPerS() {
        return kinematics.roadSpeedMPerS(schedule.leavingSpeedRadPerS(), schedule.gear());
    }

    private void shiftIfDue() {
        // A crossing is solved for in floating point: a hair of speed must not hide it.
        double shaft = kinematics.shaftSpeedRadPerS(speedMPerS, schedule.gear());
        double hair = schedule.gear() == Gear.TOP ? -1e-6 : 1e-6;
        if (schedule.update(shaft + hair)) {
            changeGear(schedule.gear());
        }
    }

    private void changeGear(Gear gear) {
        gearChange.start(nowS, kinematics.signedRatio(gear));
    }

    private double torqueNm(boolean driven, double acceleration) {
        return driven && keyOn ? roadLoad.limitedTorqueNm(askedTorqueNm(acceleration), schedule.gear()) : 0;
    }

    private boolean needsBrakes(double acceleration) {
        return roadLoad.needsBrakes(askedTorqueNm(acceleration));
    }

    private double askedTorqueNm(double acceleration) {
        return roadLoad.askedTorqueNm(roadLoad.wheelForceN(speedMPerS, acceleration, gradeRad), gearChange.ratio(nowS));
    }

    private void addRow(double shaftSpeedRadPerS, double torqueNm) {
        DriveSample row = new DriveSample();
        row.timeS = nowS;
        // Adding zero turns the -0.0 of a standing car in reverse into 0.0.
        row.shaftSpeedRadPerS = shaftSpeedRadPerS + 0.0;
        row.motorTorqueNm = torqueNm + 0.0;
        rows.add(row);
        holdFromNow();
    }

    /** The last row's range, gear, brake and key hold until the next row: give it the present ones. */
    private void holdFromNow() {
        DriveSample row = lastRow();
        row.range = range;
        row.gear = schedule.gear();
        row.brakeApplied = brakeApplied;
        row.keyOn = keyOn;
    }

    private DriveSample lastRow() {
        return rows.get(rows.size() - 1);
    }

    private void requireStanding(String act) {
        if (speedMPerS != 0) {
            throw new IllegalStateException("cannot " + act + " at " + speedMPerS + " m/s");
        }
    }
}
