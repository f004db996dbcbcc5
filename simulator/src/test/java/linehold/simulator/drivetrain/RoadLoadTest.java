package linehold.simulator.drivetrain;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.Range;
import linehold.simulator.build.CarSpec;
import linehold.simulator.build.Gear;
import linehold.simulator.build.GearsSpec;
import org.junit.jupiter.api.Test;

class RoadLoadTest {
    private static final double RPM = 2 * Math.PI / 60;
    private static final CarSpec CAR = new CarSpec(1350, 0.31, 0.75, 0.012, 1.2, 260, 90, 40);
    private static final GearsSpec GEARS = new GearsSpec(1.82, 1.00, 1.82, 3.5, 2500 * RPM, 1100 * RPM, 0.4);

    private final RoadLoad load = new RoadLoad(CAR);
    private final Kinematics kinematics = new Kinematics(CAR, GEARS);

    @Test
    void shouldAddInertiaRollingGradeAndDrag() {
        // By hand: 1350*0.5 = 675; 1350*9.80665*(0.012*cos + sin) at atan(0.06) = 158.58 + 792.93; 0.5*1.2*0.75*400 =
        // 180
        double forceN = load.wheelForceN(20, 0.5, Math.atan(0.06));
        assertThat(forceN).isCloseTo(675 + 158.58 + 792.93 + 180, within(0.02));
    }

    @Test
    void shouldTurnResistanceAroundWhenTheCarRollsBack() {
        assertThat(load.wheelForceN(-20, 0, 0)).isEqualTo(-load.wheelForceN(20, 0, 0));
    }

    @Test
    void shouldResistTheWayACarAtRestIsAboutToMove() {
        assertThat(load.wheelForceN(0, -0.5, 0)).isCloseTo(-675 - 0.012 * 1350 * 9.80665, within(1e-9));
        assertThat(load.wheelForceN(0, 0, 0)).isZero();
    }

    @Test
    void shouldAskNoTorqueOfACoastingCar() {
        double deceleration = load.coastingMPerS2(13, 0.02);
        assertThat(load.wheelForceN(13, deceleration, 0.02)).isCloseTo(0, within(1e-9));
    }

    @Test
    void shouldLimitTorqueByGearAndLeaveTheRestToTheBrakes() {
        assertThat(load.limitedTorqueNm(300, Gear.FIRST)).isEqualTo(260);
        assertThat(load.limitedTorqueNm(300, Gear.REVERSE)).isEqualTo(90);
        assertThat(load.limitedTorqueNm(-100, Gear.TOP)).isEqualTo(-40);
        assertThat(load.needsBrakes(-40)).isFalse();
        assertThat(load.needsBrakes(-40.1)).isTrue();
    }

    @Test
    void shouldTurnTheShaftForwardInReverseAndBackwardOnRollBack() {
        assertThat(kinematics.shaftSpeedRadPerS(-2, Gear.REVERSE)).isPositive();
        assertThat(kinematics.shaftSpeedRadPerS(-2, Gear.FIRST)).isNegative();
        assertThat(load.askedTorqueNm(load.wheelForceN(-2, -0.5, 0), kinematics.signedRatio(Gear.REVERSE)))
                .isPositive();
    }

    @Test
    void shouldRelateRoadSpeedAndMotorSpeed() {
        // 60 km/h: 16.6667/(2*pi*0.31)*60*3.5 = 1796.9 rpm in top, 1.82 times that in first
        assertThat(kinematics.shaftSpeedRadPerS(60 / 3.6, Gear.TOP) / RPM).isCloseTo(1796.9, within(0.1));
        assertThat(kinematics.shaftSpeedRadPerS(60 / 3.6, Gear.FIRST) / RPM).isCloseTo(3270.3, within(0.1));
        assertThat(kinematics.roadSpeedMPerS(1796.9 * RPM, Gear.TOP) * 3.6).isCloseTo(60, within(0.01));
        assertThat(kinematics.shaftSpeedRadPerS(20, Gear.NEUTRAL)).isZero();
        assertThat(kinematics.roadSpeedMPerS(20, Gear.NEUTRAL)).isZero();
    }

    @Test
    void shouldShiftWithHysteresis() {
        ShiftSchedule schedule = new ShiftSchedule(GEARS);
        assertThat(schedule.update(3000 * RPM)).as("in park").isFalse();
        assertThat(schedule.select(Range.DRIVE)).isEqualTo(Gear.FIRST);
        assertThat(schedule.update(2499 * RPM)).isFalse();
        assertThat(schedule.update(2500 * RPM)).isTrue();
        assertThat(schedule.gear()).isEqualTo(Gear.TOP);
        assertThat(schedule.update(1101 * RPM)).isFalse();
        assertThat(schedule.update(1100 * RPM)).isTrue();
        assertThat(schedule.gear()).isEqualTo(Gear.FIRST);
        assertThat(schedule.select(Range.REVERSE)).isEqualTo(Gear.REVERSE);
        assertThat(schedule.update(3000 * RPM)).isFalse();
    }
}
