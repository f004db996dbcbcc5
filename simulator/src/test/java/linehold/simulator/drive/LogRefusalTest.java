package linehold.simulator.drive;

import static linehold.simulator.drive.DemonstrationCar.CAR;
import static linehold.simulator.drive.DemonstrationCar.GEARS;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import linehold.simulator.build.InputException;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Logs and mappings that cannot be used: one clear sentence each. */
class LogRefusalTest {
    @TempDir
    Path folder;

    private LogFiles files;

    @BeforeEach
    void openFolder() {
        files = new LogFiles(folder);
    }

    private void refuses(String log, String message) {
        assertThatThrownBy(() -> files.ownFormat(log))
                .isInstanceOf(InputException.class)
                .hasMessage(message);
    }

    private void refusesMapping(String mapping, String message) {
        assertThatThrownBy(() -> LogMappingReader.parse("my.map.yaml", mapping))
                .isInstanceOf(InputException.class)
                .hasMessage(message);
    }

    @Test
    void shouldNameLineAndColumnOfACellThatIsNoNumber() {
        refuses(
                "# x\ntime_s,motor_speed_rpm\n0,800\n1,81O\n2,820\n",
                "log.csv, line 4, column \"motor_speed_rpm\": found \"81O\", expected a number in rpm between -30000 and 30000");
    }

    @Test
    void shouldRefuseASpeedThatNoMotorHas() {
        refuses(
                "time_s,motor_speed_rpm\n0,800\n1,65535\n2,820\n",
                "log.csv, line 3, column \"motor_speed_rpm\": found \"65535\", expected a number in rpm between -30000 and 30000");
    }

    @Test
    void shouldRefuseAnUnknownWord() {
        refuses(
                "time_s,motor_speed_rpm,range,gear,brake\n0,800,D,1,0\n1,810,S,1,0\n2,820,D,1,0\n",
                "log.csv, line 3, column \"range\": found \"S\", expected P, R, N or D");
        refuses(
                "time_s,motor_speed_rpm,range,gear,brake\n0,800,D,1,0\n1,810,D,3,0\n2,820,D,1,0\n",
                "log.csv, line 3, column \"gear\": found \"3\", expected N, 1, 2 or R");
        refuses(
                "time_s,motor_speed_rpm,range,gear,brake\n0,800,D,1,0\n1,810,D,1,7\n2,820,D,1,0\n",
                "log.csv, line 3, column \"brake\": found \"7\", expected 0 or 1");
    }

    @Test
    void shouldRefuseAMissingTime() {
        refuses(
                "time_s,motor_speed_rpm\n0,800\n,810\n2,820\n",
                "log.csv, line 3, column \"time_s\": found \"\", expected a number in s");
    }

    @Test
    void shouldRefuseDecimalCommasBetweenCommas() {
        refuses(
                "time_s,motor_speed_rpm\n0,\"800,5\"\n1,\"810,5\"\n2,\"811,5\"\n",
                "log.csv, line 2, column \"motor_speed_rpm\": found \"800,5\", expected a number in rpm between -30000 and 30000");
    }

    @Test
    void shouldRefuseAClockThatWasSetBackOnTheWay() {
        StringBuilder log = new StringBuilder("time_s,motor_speed_rpm\n");
        for (int i = 0; i < 200; i++) {
            log.append(i < 50 ? 1000 + i * 0.5 : i * 0.5).append(",800\n");
        }
        refuses(
                log.toString(),
                "log.csv, line 152, column \"time_s\": found \"75.0 s\", expected time to grow: it runs back behind 1024.5 s"
                        + " for more than 100 rows, so split the log where its clock was set");
    }

    @Test
    void shouldRefuseALogWithoutAHeader() {
        refuses(
                "0,800\n1,810\n",
                "log.csv: no header found in the first 200 lines, expected one line with the columns time_s and"
                        + " motor_speed_rpm or road_speed_km_h (or a mapping file log.map.yaml beside the log)");
        refuses(
                "",
                "log.csv: no header found in the first 200 lines, expected one line with the columns time_s and"
                        + " motor_speed_rpm or road_speed_km_h (or a mapping file log.map.yaml beside the log)");
    }

    @Test
    void shouldRefuseALogWithoutRows() {
        refuses("time_s,motor_speed_rpm\n", "log.csv: has no row below its header, expected rows with time and speed");
    }

    @Test
    void shouldRefuseTwoColumnsOfOneName() {
        refuses(
                "time_s,motor_speed_rpm,motor_speed_rpm\n0,1,2\n",
                "log.csv, line 1: two columns are named \"motor_speed_rpm\", expected one");
    }

    @Test
    void shouldRefuseALogThatLacksAMappedColumn() {
        files.write("log.map.yaml", "columns: {time: t, motor-speed: RPM, gear: G}\n");
        refuses(
                "t,RPM\n0,800\n",
                "log.csv: no header found in the first 200 lines, expected one line with the columns \"G\", \"RPM\", \"t\"");
    }

    @Test
    void shouldRefuseAQuoteThatIsNeverClosed() {
        StringBuilder log = new StringBuilder("time_s,motor_speed_rpm\n0,800\n1,\"810\n");
        log.append("2,820\n".repeat(300_000));
        assertThatThrownBy(() -> files.ownFormat(log.toString()))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith("log.csv: not readable as lines of cells (")
                .hasMessageEndingWith("); expected a quote that is opened to be closed");
    }

    @Test
    void shouldRefuseANameThatIsNeitherDriveNorFile() {
        assertThatThrownBy(() -> Drives.resolve("paking", CAR, GEARS))
                .isInstanceOf(InputException.class)
                .hasMessage("\"paking\": no such drive, expected the path of a CSV log or one of ece-r83, sae-j227a-c,"
                        + " sae-j227a-d, stop-and-go, hill-hold, parking, panic-stop-dry, panic-stop-dry-slow,"
                        + " panic-stop-ice, panic-stop-ice-slow");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    colums: {}                     | my.map.yaml:1:1: unknown key "colums", expected separator, decimal, encoding, max-gap, columns, range-values or gear-values
                    columns: {tim: t}              | my.map.yaml:1:11: unknown column "tim", expected time, motor-speed, road-speed, motor-torque, range, gear, oil-temperature, bus-voltage, brake, key
                    columns: {time: {unit: s}}     | my.map.yaml:1:17: time has no column, expected the name of a column of the log
                    columns: {time: {colum: s}}    | my.map.yaml:1:18: unknown key "colum", expected column or unit
                    columns: {time: {column: t, unit: bar}} | my.map.yaml:1:35: time: unknown unit "bar", expected one of s, ms, min, h
                    columns: {gear: {column: g, unit: rpm}} | my.map.yaml:1:35: gear has no unit, found "rpm"
                    columns: [time]                | my.map.yaml:1:10: expected a mapping from quantities to columns
                    columns: {time: t}             | my.map.yaml: columns has no speed, expected motor-speed or road-speed
                    columns: {road-speed: v}       | my.map.yaml: columns has no time, expected time and motor-speed or road-speed
                    max-gap: 2                     | my.map.yaml:1:10: max-gap: found "2", expected a time above 0 s up to 60 s, like 2 s
                    max-gap: 2 h                   | my.map.yaml:1:10: max-gap: found "2 h", expected a time above 0 s up to 60 s, like 2 s
                    separator: x                   | my.map.yaml:1:12: found "x", expected a comma, a semicolon, a tab or a bar
                    decimal: x                     | my.map.yaml:1:10: found "x", expected a point or a comma
                    encoding: klingon              | my.map.yaml:1:11: unknown encoding "klingon", expected one like UTF-8, UTF-16LE or windows-1252
                    range-values: {4: X}           | my.map.yaml:1:19: found "X", expected P, R, N or D
                    gear-values: {4: [1]}          | my.map.yaml:1:18: expected a single value
                    """)
    void shouldNamePlaceAndKeyOfABadMapping(String mapping, String message) {
        refusesMapping(mapping, message);
    }

    @Test
    void shouldRefuseAMappingThatIsNoYaml() {
        refusesMapping("", "my.map.yaml: is empty, expected columns with time and a speed");
        assertThatThrownBy(() -> LogMappingReader.parse("my.map.yaml", "columns: {time: t\nx: ["))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith("my.map.yaml:2:2: not valid YAML: ");
    }

    @Test
    void shouldRefuseAKeyThatStandsTwice() {
        refusesMapping("decimal: .\ndecimal: ','\n", "my.map.yaml:2:1: \"decimal\" stands here twice, expected once");
    }

    @Test
    void shouldRefuseOneMarkForTwoJobs() {
        refusesMapping(
                "separator: ','\ndecimal: ','\ncolumns: {time: t, road-speed: v}\n",
                "my.map.yaml: separator and decimal are both \",\", expected two different marks");
    }
}
