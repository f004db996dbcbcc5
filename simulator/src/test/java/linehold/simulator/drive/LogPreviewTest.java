package linehold.simulator.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.build.InputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Picking columns: what is found by itself, what is shown, and that what is kept is what was shown. */
class LogPreviewTest {
    private static final Build BUILD = Builds.demonstration();

    /** An invented logger's file. */
    private static final String FOREIGN = """
            Data logger;unit 7
            Zeit [ms];Drehzahl [rpm];Geschw. [km/h];Hebel;Öl [°C]

            0;0;0,0;4;61,5
            100;12,5;0,5;4;61,5
            200;25,0;1,0;1;61,6
            """;

    @TempDir
    private Path folder;

    private Path log(String text) throws IOException {
        return Files.writeString(folder.resolve("log.csv"), text, Charset.forName("windows-1252"));
    }

    private static LogPicks with(LogPicks picks, Map<String, LogPicks.Column> columns, Map<String, String> ranges) {
        return new LogPicks(
                picks.separator(), picks.decimal(), picks.encoding(), picks.maxGap(), columns, ranges, Map.of());
    }

    @Test
    void shouldFindSeparatorEncodingAndTheObviousColumns() throws IOException {
        LogPreview preview = LogPreview.of(log(FOREIGN), LogPicks.none(), BUILD);
        assertThat(preview.picks().separator()).isEqualTo(";");
        assertThat(preview.picks().encoding()).isEqualTo("windows-1252");
        assertThat(preview.columns())
                .contains(
                        new LogPreview.Column("Zeit [ms]", "0"),
                        new LogPreview.Column("Öl [°C]", "61,5"),
                        new LogPreview.Column("Hebel", "4"));
        assertThat(preview.picks().columns())
                .isEqualTo(Map.of(
                        "time", new LogPicks.Column("Zeit [ms]", "ms"),
                        "motor-speed", new LogPicks.Column("Drehzahl [rpm]", "rpm"),
                        "road-speed", new LogPicks.Column("Geschw. [km/h]", "km/h")));
        assertThat(preview.problem()).isNull();
        assertThat(preview.rows()).hasSize(3);
        LogPreview.Row second = preview.rows().get(1);
        assertThat(second.line()).isEqualTo(5);
        assertThat(second.numbers().get("time")).isCloseTo(0.1, within(1e-15));
        assertThat(second.numbers().get("motor-speed")).isCloseTo(12.5 * Math.PI / 30, within(1e-12));
        assertThat(second.numbers().get("road-speed")).isCloseTo(0.5 / 3.6, within(1e-12));
    }

    @Test
    void shouldAskForWordsThatNobodyExplained() throws IOException {
        Path log = log(FOREIGN);
        LogPreview first = LogPreview.of(log, LogPicks.none(), BUILD);
        Map<String, LogPicks.Column> columns = new LinkedHashMap<>(first.picks().columns());
        columns.put("range", new LogPicks.Column("Hebel", null));
        LogPreview asked = LogPreview.of(log, with(first.picks(), columns, Map.of()), BUILD);
        assertThat(asked.rangeWords()).containsExactly("1", "4");
        assertThat(asked.rows().get(0).bad()).isEqualTo("range");
        assertThat(asked.rows().get(0).badText()).isEqualTo("4");
        LogPreview told = LogPreview.of(log, with(first.picks(), columns, Map.of("4", "d", "1", "park")), BUILD);
        assertThat(told.rangeWords()).isEmpty();
        assertThat(told.problem()).isNull();
        assertThat(told.rows().get(2).words()).containsEntry("range", "P");
    }

    @Test
    void shouldTakeTheUnitFromTheNameOfAColumnThatIsPickedWithoutOne() throws IOException {
        Path log = log("t [s];n [rpm];T1 [°F];T2\n0;5;140;60\n1;6;141;61\n");
        LogPreview first = LogPreview.of(log, LogPicks.none(), BUILD);
        Map<String, LogPicks.Column> columns = new LinkedHashMap<>(first.picks().columns());
        columns.put("oil-temperature", new LogPicks.Column("T1 [°F]", null));
        LogPreview told = LogPreview.of(log, with(first.picks(), columns, Map.of()), BUILD);
        assertThat(told.picks().columns().get("oil-temperature").unit()).isEqualTo("°F");
        assertThat(told.rows().get(0).numbers().get("oil-temperature")).isCloseTo(60, within(1e-9));
        columns.put("oil-temperature", new LogPicks.Column("T2", null));
        LogPreview untold = LogPreview.of(log, with(first.picks(), columns, Map.of()), BUILD);
        assertThat(untold.picks().columns().get("oil-temperature").unit()).isEqualTo("°C");
    }

    @Test
    void shouldKeepPicksThatTheCommandReadsAsTheyWereShown() throws IOException {
        Path log = log(FOREIGN);
        LogPreview shown = LogPreview.of(log, LogPicks.none(), BUILD);
        LogPreview.keep(log, shown.picks());
        assertThat(LogPreview.picksFor(log).columns()).isEqualTo(shown.picks().columns());
        List<DriveSample> rows = DriveRows.of(LogDrive.of(log, BUILD));
        DriveSample last = rows.get(rows.size() - 1);
        assertThat(last.shaftSpeedRadPerS)
                .isEqualTo(shown.rows().get(2).numbers().get("motor-speed"));
    }

    @Test
    void shouldShowTheSentenceWithWhichProveRefusesIt() throws IOException {
        Path log = log("time_s,motor_speed_rpm\n0,0\n0.1,10\n0.2,fast\n0.3,30\n0.4,40\n");
        LogPreview preview = LogPreview.of(log, LogPicks.none(), BUILD);
        assertThat(preview.problem())
                .isEqualTo("log.csv, line 4, column \"motor_speed_rpm\": found \"fast\", expected a number in rpm"
                        + " between -30000 and 30000");
        assertThatThrownBy(() -> DriveRows.of(LogDrive.of(log, BUILD)))
                .isInstanceOf(InputException.class)
                .hasMessage(preview.problem());
        assertThat(preview.rows().get(2).bad()).isEqualTo("motor-speed");
        assertThat(preview.rows().get(2).numbers()).containsOnlyKeys("time");
    }

    @Test
    void shouldShowWhatIsThereWhileTimeIsNotPickedYet() throws IOException {
        LogPreview preview = LogPreview.of(log("when,turns (rpm),x\n0,5,7\n1,6,8\n"), LogPicks.none(), BUILD);
        assertThat(preview.picks().columns()).containsOnlyKeys("motor-speed");
        assertThat(preview.rows().get(1).numbers()).containsOnlyKeys("motor-speed");
        assertThat(preview.problem())
                .isEqualTo("log.map.yaml: columns has no time, expected time and motor-speed or road-speed");
        assertThatThrownBy(() -> LogPreview.keep(folder.resolve("log.csv"), preview.picks()))
                .isInstanceOf(InputException.class);
        assertThat(folder.resolve("log.map.yaml")).doesNotExist();
    }

    @Test
    void shouldTakeAMappingByHandApartAndMakeItAgain() {
        String text = """
                separator: tab
                decimal: ","
                encoding: UTF-16LE
                max-gap: 500 ms
                columns:
                  time: {column: "a: \\"b\\" # c", unit: ms}
                  motor-speed: {column: "Ω", unit: rev/s}
                  oil-temperature: {column: T, unit: °F}
                  motor-torque: {column: M, unit: lbf.ft}
                  range: Lever
                range-values: {4: D, "*": N}
                gear-values: {low: 1}
                """;
        LogMapping byHand = LogMappingReader.parse("log.map.yaml", text);
        assertThat(LogMappingReader.parse("log.map.yaml", LogPicks.of(byHand).yaml()))
                .isEqualTo(byHand);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "t [s],n [rpm]#0.5,700|1.5,701#,",
                "t [s];n [rpm]#0,5;700,5|1,5;701,5#;",
                "t, s;n, rpm;v, km/h#0,0;700,5;12,3|1,5;701;5#;",
                "t [s]|n [rpm]#never#none",
            })
    void shouldFindTheSeparator(String header, String rows, String separator) throws IOException {
        Path log = log(header + "\n" + rows.replace('|', '\n') + "\n");
        if (separator.equals("none")) {
            assertThatThrownBy(() -> LogPreview.of(log, LogPicks.none(), BUILD)).isInstanceOf(InputException.class);
        } else {
            LogPreview preview = LogPreview.of(log, LogPicks.none(), BUILD);
            assertThat(preview.picks().separator()).isEqualTo(separator);
            assertThat(preview.picks().columns()).containsKeys("time", "motor-speed");
            assertThat(preview.problem()).isNull();
        }
    }

    @Test
    void shouldFindADecimalCommaBetweenTabs() throws IOException {
        LogPreview preview = LogPreview.of(log("t [s]\tn [rpm]\n0,5\t700\n1,5\t701\n"), LogPicks.none(), BUILD);
        assertThat(preview.picks().separator()).isEqualTo("tab");
        assertThat(preview.picks().decimal()).isEqualTo(",");
        assertThat(preview.rows().get(0).numbers()).containsEntry("time", 0.5);
    }

    @Test
    void shouldPickEveryColumnOfOurOwnFormatByItself() {
        List<String> names =
                List.of(LogField.values()).stream().map(LogField::ownColumn).toList();
        Map<String, LogPicks.Column> picks = LogGuess.columns(names);
        assertThat(picks.values().stream().map(LogPicks.Column::column).collect(Collectors.toList()))
                .isEqualTo(names);
        assertThat(picks.get("road-speed").unit()).isEqualTo("km/h");
        assertThat(picks.get("oil-temperature").unit()).isEqualTo("°C");
    }

    @Test
    void shouldNotGuessWhereTwoColumnsMayBeMeant() {
        assertThat(LogGuess.columns(List.of("pump rpm", "wheel rpm", "T1 [°C]", "time (s)", "x", "x")))
                .containsOnlyKeys("time");
        assertThat(LogGuess.columns(List.of("Motor Speed (RPM)", "pump rpm", "Brake", "Bus voltage [mV]")))
                .containsEntry("motor-speed", new LogPicks.Column("Motor Speed (RPM)", "rpm"))
                .containsEntry("brake", new LogPicks.Column("Brake", null))
                .containsEntry("bus-voltage", new LogPicks.Column("Bus voltage [mV]", "mV"));
    }
}
