package linehold.simulator.drive;

import linehold.controller.Range;
import linehold.simulator.build.CarSpec;
import linehold.simulator.build.Gear;
import linehold.simulator.build.GearsSpec;
import linehold.simulator.drivetrain.GearChange;
import linehold.simulator.drivetrain.Kinematics;
import linehold.simulator.drivetrain.RoadLoad;
import linehold.simulator.drivetrain.ShiftSchedule;

/**
 * What a log does not say, derived from what it says.
 *
 * <ul>
 *   <li>Range: from the gear where that is logged, else drive.
 *   <li>Gear: by the range; in drive from the ratio of motor speed to road speed where both are logged, else by the shift
 *       schedule from the motor speed.
 *   <li>Motor speed: from road speed and gear, over a gear change in the shift time.
 *   <li>Torque: by road load on the level. Where motor speed alone is logged, the road speed is that of the gear.
 *   <li>Brake: not applied. A switch that nobody logged must not help the controller.
 *   <li>Key: on throughout.
 * </ul>
 */
final class LogDerivation {
    /** Below this road speed the ratio of the two speeds says nothing about the gear, m/s. */
    private static final double RATIO_FROM_M_PER_S = 1;
    /** A measured ratio this close to that of a gear shows the gear. */
    private static final double RATIO_TOLERANCE = 0.1;

    private final Kinematics kinematics;
    private final RoadLoad roadLoad;
    private final ShiftSchedule schedule;
    private final GearChange gearChange;
    private final boolean hasMotorSpeed;
    private final boolean hasRoadSpeed;
    private final boolean hasTorque;

    private final DriveSample held = new DriveSample();
    private boolean begun;
    private Range range;
    private double lastS;
    private double lastRoadSpeedMPerS;

    LogDerivation(LogHeader header, CarSpec car, GearsSpec gears) {
        this.kinematics = new Kinematics(car, gears);
        this.roadLoad = new RoadLoad(car);
        this.schedule = new ShiftSchedule(gears);
        this.gearChange = new GearChange(gears.shiftS());
        this.hasMotorSpeed = header.has(LogField.MOTOR_SPEED);
        this.hasRoadSpeed = header.has(LogField.ROAD_SPEED);
        this.hasTorque = header.has(LogField.MOTOR_TORQUE);
    }

    boolean hasRoadSpeed() {
        return hasRoadSpeed;
    }

    double shaftSpeedInFirst(double roadSpeedMPerS) {
        return kinematics.shaftSpeedRadPerS(roadSpeedMPerS, Gear.FIRST);
    }

    Range range(LogRow row) {
        if (row.range != null) {
            return row.range;
        }
        if (row.gear == null) {
            return Range.DRIVE;
        }
        return switch (row.gear) {
            case NEUTRAL -> Range.NEUTRAL;
            case FIRST, TOP -> Range.DRIVE;
            case REVERSE -> Range.REVERSE;
        };
    }

    /** Adds the rows that follow from one row of the log; the torque of a row may be left for {@link #torqueNm}. */
    void add(double timeS, LogRow row, LogWindow window) {
        Range selected = range(row);
        // Road speed is logged without a sign: in reverse it is backward.
        double roadSpeed = selected == Range.REVERSE ? -Math.abs(row.roadSpeedMPerS) : row.roadSpeedMPerS;
        if (!hasMotorSpeed && begun && gearChange.endS() > lastS && gearChange.endS() < timeS) {
            addEndOfChange(timeS, roadSpeed, window);
        }
        boolean changed = takeGear(row, selected, roadSpeed);
        Gear gear = schedule.gear();
        if (!begun) {
            gearChange.settle(kinematics.signedRatio(gear));
        } else if (changed) {
            gearChange.start(timeS, kinematics.signedRatio(gear));
        }
        double ratio = hasMotorSpeed ? kinematics.signedRatio(gear) : gearChange.ratio(timeS);
        double shaft = hasMotorSpeed ? row.shaftSpeedRadPerS : kinematics.shaftSpeedRadPerS(roadSpeed, ratio);
        if (!hasRoadSpeed) {
            roadSpeed = kinematics.roadSpeedMPerS(shaft, gear);
        }
        begun = true;
        lastS = timeS;
        lastRoadSpeedMPerS = roadSpeed;

        DriveSample sample = window.add(timeS, roadSpeed, ratio, hasTorque);
        sample.shaftSpeedRadPerS = shaft + 0.0;
        sample.motorTorqueNm = row.motorTorqueNm + 0.0;
        sample.range = selected;
        sample.gear = gear;
        sample.brakeApplied = row.brakeApplied;
        sample.keyOn = row.keyOn;
        sample.oilTemperatureC = row.oilTemperatureC;
        sample.busOpenVolts = row.busVolts;
        held.copyFrom(sample);
    }

    private void addEndOfChange(double timeS, double roadSpeed, LogWindow window) {
        double endS = gearChange.endS();
        double share = (endS - lastS) / (timeS - lastS);
        double speed = lastRoadSpeedMPerS + (roadSpeed - lastRoadSpeedMPerS) * share;
        double ratio = gearChange.ratio(endS);
        DriveSample sample = window.add(endS, speed, ratio, hasTorque);
        sample.copyFrom(held);
        sample.timeS = endS;
        sample.shaftSpeedRadPerS = kinematics.shaftSpeedRadPerS(speed, ratio) + 0.0;
    }

    private boolean takeGear(LogRow row, Range selected, double roadSpeed) {
        Gear before = schedule.gear();
        if (row.gear != null) {
            schedule.follow(row.gear);
            return row.gear != before;
        }
        if (selected != range) {
            range = selected;
            schedule.select(selected);
        }
        if (selected == Range.DRIVE) {
            if (hasMotorSpeed && hasRoadSpeed) {
                followRatio(row.shaftSpeedRadPerS, roadSpeed);
            } else if (hasMotorSpeed) {
                schedule.update(row.shaftSpeedRadPerS);
            } else {
                schedule.update(kinematics.shaftSpeedRadPerS(roadSpeed, schedule.gear()));
            }
        }
        return schedule.gear() != before;
    }

    private void followRatio(double shaft, double roadSpeed) {
        if (!(Math.abs(roadSpeed) >= RATIO_FROM_M_PER_S)) {
            return;
        }
        for (Gear gear : new Gear[] {Gear.FIRST, Gear.TOP}) {
            double expected = kinematics.shaftSpeedRadPerS(roadSpeed, gear);
            if (Math.abs(shaft - expected) <= RATIO_TOLERANCE * Math.abs(expected)) {
                schedule.follow(gear);
            }
        }
    }

    /** Torque by road load on the level, within the motor's limits; zero at rest. */
    double torqueNm(double roadSpeedMPerS, double accelerationMPerS2, double signedRatio, Gear gear) {
        double asked = roadLoad.askedTorqueNm(roadLoad.wheelForceN(roadSpeedMPerS, accelerationMPerS2, 0), signedRatio);
        return roadLoad.limitedTorqueNm(asked, gear) + 0.0;
    }
}
