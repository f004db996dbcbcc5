package linehold.simulator.drive;

import static linehold.simulator.drive.DemonstrationCar.CAR;
import static linehold.simulator.drive.DemonstrationCar.GEARS;
import static linehold.simulator.drive.DemonstrationCar.RPM;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import linehold.controller.Range;
import linehold.simulator.build.Gear;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class BuiltInDrivesTest {
    static List<RowDrive> drives() {
        return BuiltInDrives.all(CAR, GEARS);
    }

    private static RowDrive drive(String name) {
        return drives().stream().filter(d -> d.name().equals(name)).findFirst().orElseThrow();
    }

    @Test
    void shouldListTheDemonstrationSetInAFixedOrder() {
        assertThat(drives())
                .extracting(RowDrive::name)
                .containsExactly(
                        "ece-r83",
                        "sae-j227a-c",
                        "sae-j227a-d",
                        "stop-and-go",
                        "hill-hold",
                        "parking",
                        "panic-stop-dry",
                        "panic-stop-dry-slow",
                        "panic-stop-ice",
                        "panic-stop-ice-slow");
    }

    @ParameterizedTest
    @MethodSource("drives")
    void shouldStartInParkGrowInTimeAndEndWithTheKeyOff(RowDrive drive) {
        List<DriveSample> rows = drive.rows();
        assertThat(rows.get(0).timeS).isZero();
        assertThat(rows.get(0).keyOn).isTrue();
        assertThat(rows.get(0).range).isEqualTo(Range.PARK);
        for (int i = 1; i < rows.size(); i++) {
            assertThat(rows.get(i).timeS).isGreaterThan(rows.get(i - 1).timeS);
        }
        DriveSample last = rows.get(rows.size() - 1);
        assertThat(last.keyOn).isFalse();
        assertThat(last.shaftSpeedRadPerS).isZero();
        double keyOffS = rows.stream().filter(r -> !r.keyOn).findFirst().orElseThrow().timeS;
        assertThat(last.timeS - keyOffS).isCloseTo(TripBuilder.AFTER_KEY_OFF_S, within(1e-9));
    }

    /** The longest engagement allowed is 5 s at -20 °C. */
    @ParameterizedTest
    @MethodSource("drives")
    void shouldStandSixSecondsInARangeBeforeTorqueOrMovement(RowDrive drive) {
        double selectedS = 0;
        Range range = Range.PARK;
        for (DriveSample row : drive.rows()) {
            if (row.range != range) {
                range = row.range;
                selectedS = row.timeS;
                assertThat(row.shaftSpeedRadPerS).as("selects at standstill").isZero();
            }
            if (Math.abs(row.motorTorqueNm) > 0 || Math.abs(row.shaftSpeedRadPerS) > 0) {
                assertThat(row.timeS - selectedS).isGreaterThanOrEqualTo(6);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("drives")
    void shouldAskModerateTorques(RowDrive drive) {
        for (DriveSample row : drive.rows()) {
            assertThat(row.motorTorqueNm).isGreaterThanOrEqualTo(-CAR.overrunTorqueNm());
            if (row.gear == Gear.FIRST) {
                assertThat(row.motorTorqueNm).isLessThanOrEqualTo(110);
            }
            if (row.gear == Gear.REVERSE) {
                assertThat(row.motorTorqueNm).isLessThanOrEqualTo(60);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("drives")
    void shouldFollowTheShiftScheduleWithARowAtStartAndEndOfEachChange(RowDrive drive) {
        List<DriveSample> rows = drive.rows();
        for (int i = 1; i < rows.size(); i++) {
            DriveSample before = rows.get(i - 1);
            DriveSample at = rows.get(i);
            boolean up = before.gear == Gear.FIRST && at.gear == Gear.TOP;
            boolean down = before.gear == Gear.TOP && at.gear == Gear.FIRST;
            if (!up && !down) {
                continue;
            }
            assertThat(at.shaftSpeedRadPerS / RPM).isCloseTo(up ? 2500 : 1100, within(1e-3));
            double endS = at.timeS + GEARS.shiftS();
            if (!drive.name().startsWith("panic")) {
                assertThat(rows).anySatisfy(r -> assertThat(r.timeS).isCloseTo(endS, within(1e-6)));
            }
        }
    }

    /** Torque is linear between rows: it must not jump from row to row within less than a pedal's time. */
    @Test
    void shouldRampTorqueBetweenParts() {
        List<DriveSample> rows = drive("sae-j227a-c").rows();
        DriveSample start = rows.stream().filter(r -> r.timeS == 10).findFirst().orElseThrow();
        DriveSample pedal = rows.get(rows.indexOf(start) + 1);
        assertThat(start.motorTorqueNm).isZero();
        assertThat(pedal.timeS).isCloseTo(10 + TripBuilder.PEDAL_S, within(1e-12));
        // 13.4112 m/s in 18 s: (1350*0.74507 + 158.87 + 0.45*0.149^2)*0.31/6.37 = 56.68 N·m
        assertThat(pedal.motorTorqueNm).isCloseTo(56.68, within(0.01));
    }

    @Test
    void shouldRollBackAgainstFirstForAboutASecond() {
        double backwardS = 0;
        double slowest = 0;
        List<DriveSample> rows = drive("hill-hold").rows();
        for (int i = 1; i < rows.size(); i++) {
            DriveSample row = rows.get(i);
            slowest = Math.min(slowest, row.shaftSpeedRadPerS / RPM);
            if (row.shaftSpeedRadPerS < 0) {
                assertThat(row.gear).isEqualTo(Gear.FIRST);
                backwardS += row.timeS - rows.get(i - 1).timeS;
            }
        }
        assertThat(slowest).isBetween(-70.0, -40.0);
        assertThat(backwardS).isBetween(2.0, 5.0);
    }

    @Test
    void shouldReverseWithTheShaftForward() {
        assertThat(drive("parking").rows())
                .filteredOn(r -> r.gear == Gear.REVERSE && r.motorTorqueNm > 0)
                .isNotEmpty()
                .allSatisfy(r -> {
                    assertThat(r.range).isEqualTo(Range.REVERSE);
                    assertThat(r.shaftSpeedRadPerS).isPositive();
                });
    }

    @Test
    void shouldLockAtTheStatedRateAfterBuildUp() {
        for (String name : List.of("panic-stop-dry", "panic-stop-ice")) {
            double rate = name.endsWith("dry") ? 4500 : 15000;
            List<DriveSample> rows = drive(name).rows();
            DriveSample brake = rows.stream()
                    .filter(r -> r.brakeApplied && r.shaftSpeedRadPerS > 1500 * RPM)
                    .findFirst()
                    .orElseThrow();
            assertThat(brake.motorTorqueNm).isZero();
            assertThat(brake.gear).isEqualTo(Gear.TOP);
            double steepest = 0;
            for (int i = 1; i < rows.size(); i++) {
                double seconds = rows.get(i).timeS - rows.get(i - 1).timeS;
                steepest = Math.max(
                        steepest, (rows.get(i - 1).shaftSpeedRadPerS - rows.get(i).shaftSpeedRadPerS) / seconds / RPM);
            }
            assertThat(steepest).isCloseTo(rate, within(rate * 1e-6));
            DriveSample stopped = rows.stream()
                    .filter(r -> r.timeS > brake.timeS && r.shaftSpeedRadPerS == 0)
                    .findFirst()
                    .orElseThrow();
            // n0/rate + t_b/2, from the integral of the rate
            double stopS = brake.shaftSpeedRadPerS / RPM / rate + 0.15 / 2;
            assertThat(stopped.timeS - brake.timeS).isCloseTo(stopS, within(0.002));
            assertThat(stopped.gear).isEqualTo(Gear.FIRST);
        }
    }

    @Test
    void shouldLockFromJustAboveTheSwitchOverWindowInFirst() {
        List<DriveSample> rows = drive("panic-stop-ice-slow").rows();
        DriveSample brake = rows.stream()
                .filter(r -> r.brakeApplied && r.shaftSpeedRadPerS > 900 * RPM)
                .findFirst()
                .orElseThrow();
        assertThat(brake.gear).isEqualTo(Gear.FIRST);
        // The shaft stands before the brake pressure is up: 1000 rpm < 15000*0.15/2 rpm.
        DriveSample stopped = rows.stream()
                .filter(r -> r.timeS > brake.timeS && r.shaftSpeedRadPerS == 0)
                .findFirst()
                .orElseThrow();
        assertThat(stopped.timeS - brake.timeS).isLessThan(0.15);
    }

    @Test
    void shouldReadTheSameRowsEveryTime() {
        RowDrive drive = drive("parking");
        List<String> first = DriveRows.of(drive).stream().map(DriveRows::text).toList();
        List<String> second = DriveRows.of(drive).stream().map(DriveRows::text).toList();
        assertThat(first).hasSameSizeAs(drive.rows()).isEqualTo(second);
        assertThat(drive.open().repairs()).isEqualTo(RepairCounts.NONE);
    }

    @Test
    void shouldRefuseToSelectARangeOnTheMove() {
        TripBuilder trip = TripBuilder.started(CAR, GEARS).reach(5, 5);
        assertThatThrownBy(() -> trip.select(Range.REVERSE)).isInstanceOf(IllegalStateException.class);
    }

    @Test
    void shouldHoldTheCarOnASlopeByTheMotorAlone() {
        List<DriveSample> rows = TripBuilder.started(CAR, GEARS)
                .onGrade(6)
                .holdByMotor(3)
                .finish("held", "test")
                .rows();
        DriveSample held = rows.stream()
                .filter(row -> row.motorTorqueNm > 0)
                .reduce((first, last) -> last)
                .orElseThrow();
        // T = m·g·sin(γ)·r / i, tan(γ) = 0.06: a standing car has no rolling resistance to overcome.
        double weightN = 1350 * 9.80665 * 0.06 / Math.sqrt(1 + 0.06 * 0.06);
        assertThat(held.motorTorqueNm).isCloseTo(weightN * 0.31 / (1.82 * 3.5), within(0.01));
        assertThat(held.shaftSpeedRadPerS).isZero();
        assertThat(rows).noneMatch(row -> row.motorTorqueNm > 0 && row.shaftSpeedRadPerS != 0);
    }

    @Test
    void shouldGiveNoTorqueOnceTheKeyIsOff() {
        List<DriveSample> rows = TripBuilder.started(CAR, GEARS)
                .reach(5, 5)
                .keyOff()
                .coast(1)
                .reach(0, 3)
                .finish("off", "test")
                .rows();
        List<DriveSample> off = rows.stream().filter(row -> !row.keyOn).toList();
        assertThat(off.get(0).shaftSpeedRadPerS).isPositive();
        // The foot takes its time to leave the pedal; after it there is none.
        assertThat(off.stream().skip(2)).allMatch(row -> row.motorTorqueNm == 0);
        assertThat(rows.get(rows.size() - 1).keyOn).isFalse();
    }
}
