package linehold.simulator.drive;

import static linehold.simulator.drive.DemonstrationCar.CAR;
import static linehold.simulator.drive.DemonstrationCar.GEARS;
import static linehold.simulator.drive.DemonstrationCar.RPM;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import linehold.controller.Range;
import linehold.simulator.build.Gear;
import linehold.simulator.build.Quantity;
import linehold.simulator.drive.LogFiles.Outcome;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What becomes of logs that can be used. */
class LogDriveTest {
    @TempDir
    Path folder;

    private LogFiles files;

    @BeforeEach
    void openFolder() {
        files = new LogFiles(folder);
    }

    private static double rpm(double value) {
        return Quantity.ROTATION.unit("rpm").orElseThrow().toSi(value);
    }

    @Test
    void shouldTakeEveryColumnOfOurOwnFormatAsItIs() {
        Outcome log = files.ownFormat("""
                time_s,motor_speed_rpm,motor_torque_nm,range,gear,oil_c,bus_v,brake,key
                5.0,1000,20.5,D,1,61.5,13.2,0,1
                5.1,1100,-3,N,N,62,13.1,1,0
                """);
        assertThat(log.rows().stream().map(DriveRows::text))
                .containsExactly(
                        "0.0 " + rpm(1000) + " 20.5 DRIVE FIRST - on 61.5 13.2",
                        (5.1 - 5.0) + " " + rpm(1100) + " -3.0 NEUTRAL NEUTRAL brake off 62.0 13.1");
        assertThat(log.repairs()).isEqualTo(RepairCounts.NONE);
    }

    @Test
    void shouldReadBackEveryRowOfAnExportedDrive() {
        for (RowDrive drive : BuiltInDrives.all(CAR, GEARS)) {
            Path file = folder.resolve(drive.name() + ".csv");
            long written = DriveCsv.write(drive, file);
            Outcome log = files.outcome(drive.name() + ".csv");
            assertThat(log.rows()).hasSize((int) written);
            assertThat(log.repairs()).isEqualTo(RepairCounts.NONE);
            for (DriveSample expected : drive.rows()) {
                DriveSample actual = log.at(expected.timeS);
                // rpm and back may cost the last binary digit
                assertThat(actual.shaftSpeedRadPerS)
                        .isCloseTo(expected.shaftSpeedRadPerS, within(1e-12 * Math.abs(expected.shaftSpeedRadPerS)));
                actual.shaftSpeedRadPerS = expected.shaftSpeedRadPerS;
                assertThat(DriveRows.text(actual)).isEqualTo(DriveRows.text(expected));
            }
            for (int i = 1; i < log.rows().size(); i++) {
                assertThat(log.rows().get(i).timeS - log.rows().get(i - 1).timeS)
                        .isBetween(0.0, 1.0);
            }
        }
    }

    @Test
    void shouldPutAStartBeforeALogThatBeginsAtRest() {
        Outcome log = files.ownFormat("""
                time_s,motor_speed_rpm,motor_torque_nm,range
                100,0,30,R
                100.5,60,30,R
                """);
        assertThat(log.rows().stream().map(DriveRows::text))
                .startsWith(
                        "0.0 0.0 0.0 PARK NEUTRAL brake on NaN NaN",
                        "3.0 0.0 0.0 REVERSE REVERSE brake on NaN NaN",
                        "9.9 0.0 0.0 REVERSE REVERSE brake on NaN NaN",
                        "10.0 0.0 30.0 REVERSE REVERSE - on NaN NaN")
                .hasSize(5);
        assertThat(log.repairs().startPutBeforeS()).isEqualTo(10);
        assertThat(log.repairs().any()).isFalse();
    }

    @Test
    void shouldPutNoStartBeforeALogThatBeginsMoving() {
        Outcome log = files.ownFormat("time_s,motor_speed_rpm\n0,800\n1,900\n2,1000\n");
        assertThat(log.rows()).hasSize(3);
        assertThat(log.rows().get(0).keyOn).isTrue();
        assertThat(log.rows().get(0).range).isEqualTo(Range.DRIVE);
        assertThat(log.rows().get(0).gear).isEqualTo(Gear.FIRST);
        assertThat(log.repairs().startPutBeforeS()).isZero();
    }

    @Test
    void shouldDeriveShaftSpeedGearAndTorqueFromRoadSpeed() {
        StringBuilder text = new StringBuilder("time_s,road_speed_km_h\n");
        // 0.8 m/s² up to 60 km/h, at 10 Hz
        for (int i = 0; i <= 250; i++) {
            double kmH = Math.min(60, Math.max(0, (i - 20) * 0.1 * 0.8 * 3.6));
            text.append(String.format(Locale.ROOT, "%.1f,%.6f%n", i * 0.1, kmH));
        }
        Outcome log = files.ownFormat(text.toString());
        DriveSample inFirst = log.at(10 + 10);
        assertThat(inFirst.gear).isEqualTo(Gear.FIRST);
        // 6.4 m/s * 6.37 / 0.31 m; (1350*0.8 + 158.87 + 0.45*6.4^2)*0.31/6.37
        assertThat(inFirst.shaftSpeedRadPerS).isCloseTo(6.4 * 6.37 / 0.31, within(1e-4));
        assertThat(inFirst.motorTorqueNm).isCloseTo(61.19, within(0.02));
        DriveSample inTop = log.at(10 + 21);
        assertThat(inTop.gear).isEqualTo(Gear.TOP);
        assertThat(inTop.shaftSpeedRadPerS).isCloseTo(15.2 * 3.5 / 0.31, within(1e-4));
        DriveSample cruising = log.at(10 + 24);
        assertThat(cruising.motorTorqueNm).isCloseTo((158.87 + 0.45 * 277.78) * 0.31 / 3.5, within(0.01));
        // The change starts at the first row at or above 2500 rpm and ends in a row of its own.
        DriveSample change =
                log.rows().stream().filter(r -> r.gear == Gear.TOP).findFirst().orElseThrow();
        assertThat(change.shaftSpeedRadPerS / RPM).isBetween(2500.0, 2520.0);
        DriveSample end = log.at(change.timeS + GEARS.shiftS());
        assertThat(end.shaftSpeedRadPerS / change.shaftSpeedRadPerS).isBetween(0.54, 0.57);
    }

    @Test
    void shouldReverseWithTheShaftForwardWhereRoadSpeedHasNoSign() {
        Outcome log = files.ownFormat(
                "time_s,road_speed_km_h,range\n0,0,R\n1,0,R\n2,3,R\n3,6,R\n4,6,R\n5,6,R\n6,0,R\n7,0,R\n");
        DriveSample reversing = log.at(10 + 4);
        assertThat(reversing.gear).isEqualTo(Gear.REVERSE);
        assertThat(reversing.shaftSpeedRadPerS).isCloseTo(6 / 3.6 * 6.37 / 0.31, within(1e-9));
        assertThat(log.at(10 + 2).motorTorqueNm).isPositive();
    }

    @Test
    void shouldReadTheGearFromTheRatioOfBothSpeeds() {
        StringBuilder text = new StringBuilder("time_s,motor_speed_rpm,road_speed_km_h,motor_torque_nm\n");
        // 36 km/h is 1962 rpm in first, 1078 rpm in top: by the schedule both would be first.
        for (int i = 0; i < 10; i++) {
            text.append(i).append(i < 5 ? ",1962,36,10\n" : ",1078,36,10\n");
        }
        Outcome log = files.ownFormat(text.toString());
        assertThat(log.rows().stream().map(r -> r.gear))
                .startsWith(Gear.FIRST)
                .endsWith(Gear.TOP)
                .hasSize(10);
        assertThat(log.at(4).gear).isEqualTo(Gear.FIRST);
        assertThat(log.at(5).gear).isEqualTo(Gear.TOP);
    }

    @Test
    void shouldShiftByScheduleAndDeriveTorqueFromMotorSpeedAlone() {
        StringBuilder text = new StringBuilder("time_s,motor_speed_rpm\n");
        for (int i = 0; i <= 100; i++) {
            text.append(i * 0.1).append(',').append(1000 + 20 * i).append('\n');
        }
        Outcome log = files.ownFormat(text.toString());
        assertThat(log.at(7.0).gear).isEqualTo(Gear.FIRST);
        assertThat(log.at(8.0).gear).isEqualTo(Gear.TOP);
        // 200 rpm/s in first: a = 200*2*pi/60*0.31/6.37 = 1.01924 m/s² at v = 1600 rpm = 8.1540 m/s
        assertThat(log.at(3.0).motorTorqueNm)
                .isCloseTo((1350 * 1.01924 + 158.87 + 0.45 * 66.488) * 0.31 / 6.37, within(0.02));
        assertThat(log.rows()).allSatisfy(r -> assertThat(r.motorTorqueNm).isLessThanOrEqualTo(260));
    }

    @Test
    void shouldNotLetABrakeNobodyLoggedHelp() {
        Outcome log = files.ownFormat("time_s,road_speed_km_h\n0,50\n1,50\n2,20\n3,0\n4,0\n5,0\n");
        assertThat(log.rows()).noneMatch(r -> r.brakeApplied);
        assertThat(log.rows().stream().mapToDouble(r -> r.motorTorqueNm).min()).hasValue(-CAR.overrunTorqueNm());
    }

    @Test
    void shouldReadSemicolonsDecimalCommasByteOrderMarkAndComments() {
        Outcome log = files.ownFormat("\ufeff# logger 7\n\nsome heading\n time_s ; motor_speed_rpm;motor_torque_nm\n"
                + "0,0;800,5;1,25\n# lunch\n0,5;801;1.5\n1;802;2\n");
        assertThat(log.rows()).hasSize(3);
        assertThat(log.rows().get(0).shaftSpeedRadPerS).isCloseTo(800.5 * RPM, within(1e-12));
        assertThat(log.rows().get(0).motorTorqueNm).isEqualTo(1.25);
        assertThat(log.rows().get(1).timeS).isEqualTo(0.5);
        assertThat(log.repairs().skippedLines()).isEqualTo(4);
    }

    @ParameterizedTest
    @ValueSource(strings = {"UTF-16LE", "UTF-16BE", "UTF-8"})
    void shouldTakeTheEncodingFromTheByteOrderMark(String charset) {
        byte[] bytes = "\ufefftime_s\tmotor_speed_rpm\r\n0\t800\r\n1\t810\r\n2\t820"
                .getBytes(java.nio.charset.Charset.forName(charset));
        Outcome log = files.write("log.csv", bytes).outcome("log.csv");
        assertThat(log.rows()).hasSize(3);
    }

    @Test
    void shouldMapColumnsUnitsAndWords() {
        files.write("car 3.map.yaml", """
                # what the logger calls things
                separator: ";"
                decimal: ","
                encoding: windows-1252
                max-gap: 500 ms
                columns:
                  time: {column: Zeit, unit: ms}
                  road-speed: {column: "v [mph]", unit: mph}
                  motor-torque: {column: M, unit: lbf.ft}
                  oil-temperature: {column: Öl, unit: °F}
                  range: Hebel
                  brake: Bremse
                range-values: {4: D, 3: reverse}
                """);
        files.write(
                "car 3.csv",
                ("Zeit;v [mph];M;Öl;Hebel;Bremse;noise\n" + "1000;10;100,0;212;4;off;x\n"
                                + "1250;10;100,0;212;4;ON;y\n")
                        .getBytes(java.nio.charset.Charset.forName("windows-1252")));
        LogDrive drive = files.drive("car 3.csv");
        assertThat(drive.name()).isEqualTo("car-3");
        assertThat(drive.source()).isEqualTo("car 3.csv");
        List<DriveSample> rows = DriveRows.of(drive);
        DriveSample second = rows.get(1);
        assertThat(second.timeS).isEqualTo(0.25);
        assertThat(second.shaftSpeedRadPerS).isCloseTo(4.4704 * 6.37 / 0.31, within(1e-9));
        assertThat(second.motorTorqueNm).isCloseTo(135.582, within(0.001));
        assertThat(second.oilTemperatureC).isCloseTo(100, within(1e-9));
        assertThat(second.brakeApplied).isTrue();
        assertThat(second.range).isEqualTo(Range.DRIVE);
    }

    @Test
    void shouldCountDuplicateAndBackwardRows() {
        Outcome log = files.ownFormat(
                "time_s,motor_speed_rpm\n0,800\n0.1,810\n0.1,820\n0.2,830\n0.15,9\n0.05,9\n0.3,840\n0.3,850\n");
        assertThat(log.rows().stream().map(r -> Math.round(r.shaftSpeedRadPerS / RPM)))
                .containsExactly(800L, 820L, 830L, 850L);
        assertThat(log.repairs()).isEqualTo(new RepairCounts(0, 2, 2, 0, false, Double.NaN, 0));
    }

    @Test
    void shouldHoldSilentCellsAndLeaveOutRowsWithoutSpeed() {
        Outcome log = files.ownFormat(
                "time_s,motor_speed_rpm,motor_torque_nm,oil_c\n0,800,5,\n0.1,,7,60\n0.2,820,,NaN\n0.3,830,8,61\n");
        assertThat(log.rows()).hasSize(3);
        assertThat(log.rows().get(0).oilTemperatureC).isNaN();
        assertThat(log.at(0.2).motorTorqueNm).isEqualTo(7);
        assertThat(log.at(0.2).oilTemperatureC).isEqualTo(60);
        assertThat(log.repairs().emptyCells()).isEqualTo(3);
    }

    @Test
    void shouldEndTheEvidenceAtAGap() {
        Outcome log = files.ownFormat("time_s,motor_speed_rpm\n0,0\n1,0\n2,500\n3,900\n5.5,900\n6.5,900\n");
        assertThat(log.repairs().endedByGap()).isTrue();
        assertThat(log.repairs().endedAtS()).isEqualTo(10 + 3);
        assertThat(log.rows().get(log.rows().size() - 1).timeS).isEqualTo(13);
        assertThat(log.repairs().any()).isTrue();
    }

    @Test
    void shouldLeaveOutWhatALoggerWritesWhileItStarts() {
        Outcome log = files.ownFormat(
                "time_s,motor_speed_rpm,bus_v\n[s],[rpm],[V]\n0,0,0\n0,0,0\n\u0000\u0001,0\n0,0,0\n1700000000.00,0,13\n"
                        + "1700000000.25,0,13\n1700000000.50,60,13\n1700000000.75,90,13\n");
        assertThat(log.repairs().skippedLines()).isEqualTo(5);
        assertThat(log.repairs().endedByGap()).isFalse();
        assertThat(log.at(10.75).shaftSpeedRadPerS).isCloseTo(90 * RPM, within(1e-9));
    }

    @Test
    void shouldLeaveOutALineOfUnitsBeforeALogThatBeginsMoving() {
        Outcome log = files.ownFormat("time_s,motor_speed_rpm\ns,rpm\n0,800\n1,810\n");
        assertThat(log.rows()).hasSize(2);
        assertThat(log.repairs().skippedLines()).isEqualTo(1);
    }

    @Test
    void shouldLeaveOutATornLastLine() {
        Outcome log = files.ownFormat("time_s,motor_speed_rpm,gear\n0,800,1\n1,810,1\n2,82\u0000\u0000");
        assertThat(log.rows()).hasSize(2);
        assertThat(log.repairs().skippedLines()).isEqualTo(1);
    }

    @Test
    void shouldKeepALockedWheelInARoadSpeedLog() {
        StringBuilder text = new StringBuilder("time_s,road_speed_km_h\n");
        List<Double> speeds = new ArrayList<>();
        for (int i = 0; i < 300; i++) {
            speeds.add(Math.max(0, 50 - Math.max(0, i - 200) * 1.5));
            text.append(String.format(Locale.ROOT, "%.2f,%.2f%n", i * 0.01, speeds.get(i)));
        }
        Outcome log = files.ownFormat(text.toString());
        DriveSample stopped = log.at(2.35);
        assertThat(stopped.shaftSpeedRadPerS).isZero();
        assertThat(log.at(2.20).shaftSpeedRadPerS).isPositive();
    }

    @Test
    void shouldReadAgainFromTheFileEachTime() {
        files.write("log.csv", "time_s,motor_speed_rpm\n0,800\n1,810\n2,820\n");
        LogDrive drive = files.drive("log.csv");
        assertThat(DriveRows.of(drive)).hasSize(3);
        assertThat(DriveRows.of(drive)).hasSize(3);
    }

    @Test
    void shouldFindADriveByNameOrPath() {
        files.write("log.csv", "time_s,motor_speed_rpm\n0,800\n1,810\n2,820\n");
        assertThat(Drives.resolve("parking", CAR, GEARS).source()).startsWith("invented");
        assertThat(Drives.resolve(folder.resolve("log.csv").toString(), CAR, GEARS)
                        .name())
                .isEqualTo("log");
    }
}
