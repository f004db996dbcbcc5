package linehold.rig.board;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.rig.board.Wire.Pull;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.InputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every fault of a board file is one sentence with file, line, column, key, what was found and what was expected. */
class BoardFileTest {
    private static final String GOOD = BoardFile.example();

    private static Board read(String text) {
        return BoardReader.read("board.yaml", text.getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void shouldReadTheExampleAsTheDrawingsShowIt() {
        Board board = read(GOOD);

        assertThat(board.wires().keySet()).containsExactlyInAnyOrder(BoardFunction.values());
        assertThat(board.output(BoardFunction.MAIN_COIL)).contains(new Wire.Output(17, true));
        assertThat(board.input(BoardFunction.KEY)).contains(new Wire.Input(5, false, Pull.UP));
        assertThat(board.pickup()).contains(new Wire.Pickup(16, true, Pull.NONE));
        assertThat(board.converters()).containsEntry(2, new Converter(1, 0x49, 100_000_000));
        Wire.Analog contact = board.analog(BoardFunction.MAIN_CONTACT).orElseThrow();
        assertThat(contact.reachVolts()).isEqualTo(4.096 * 5.70);
    }

    @Test
    void shouldServeTheDemonstrationCarWithTheExample() {
        BoardChecks.check(
                "board.yaml", read(GOOD), BuildFile.loadNamed("demonstration").calibration());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '"',
            value = {
                "line: 17|line: 28|18:9: main-coil.line: found '28', expected a whole number such as '17' between 0 and 27",
                "line: 17|line: 16.5|18:9: main-coil.line: found '16.5', expected a whole number such as '17' between 0 and 27",
                "line: 17|line: [17]|18:9: main-coil.line: found a list, expected a whole number such as '17' between 0 and 27",
                "line: 17|line: 2|18:9: main-coil.line: found '2', expected a line other than 2 and 3, which carry I2C bus 1",
                "line: 27|line: 17|21:9: standby-coil.line: found line 17, which main-coil (line 18 of the file) has already,"
                        + " expected one of its own",
                "active: high|active: hi|19:11: main-coil.active: found 'hi', expected high or low",
                "active: high|aktive: high|19:3: main-coil.aktive: found an unknown key, expected 'active'",
                "edge: rising|edge: both|42:9: pickup.edge: found 'both', expected rising or falling",
                "channel: 1|channel: 0|77:12: standby-contact.channel: found channel 0 of adc-1, which main-contact (line 72 of"
                        + " the file) has already, expected one of its own",
                "adc: 2|adc: 3|91:8: bus.adc: found '3', expected the number of a converter that the file has",
                "0x49|0x48|14:12: adc-2.address: found address 0x48 of bus 1, which adc-1 (line 10 of the file) has already,"
                        + " expected one of its own",
                "gain: 4.096 V|gain: 5 V|73:9: main-contact.gain: found '5 V', expected one of 6.144 V, 4.096 V, 2.048 V, 1.024 V,"
                        + " 0.512 V, 0.256 V",
                "oldest: 100 ms|oldest: 100|11:11: adc-1.oldest: found '100', expected a time such as '100 ms' (s, ms, min, h)"
                        + " between 20 ms and 1 s",
                "4.5 V: 50 A}|0.4 V: 50 A}|100:24: pump-current.points: found '0.4 V', expected two or more points from rising"
                        + " voltages to a current such as '{0.5 V: 0 A, 4.5 V: 50 A}'",
                "4.5 V: 50 A}|4.5 V: 50 V}|100:31: pump-current.points: found '50 V', expected two or more points from rising"
                        + " voltages to a current such as '{0.5 V: 0 A, 4.5 V: 50 A}'",
                "60 °C: 595 ohm|60 °C: 3 kohm|108:59: oil-temperature.resistance: found '3 kohm', expected two or more rising"
                        + " temperatures with falling resistances between 1 ohm and 1000 kohm such as '{20 °C: 2.5 kohm, 60 °C:"
                        + " 595 ohm, 120 °C: 114 ohm}'",
                "main-coil:|main-koil:|17:1: main-koil: found an unknown key, expected 'main-coil'",
                "chip: pinctrl|chip: ''|5:7: chip: found nothing, expected a text of 1 to 60 characters such as 'pinctrl'",
            })
    void shouldSayWhatIsWrongWhereAndWhatWasExpected(String good, String bad, String message) {
        assertThat(GOOD).contains(good);
        String file = GOOD.substring(0, GOOD.indexOf(good)) + bad + GOOD.substring(GOOD.indexOf(good) + good.length());

        assertThatThrownBy(() -> read(file)).isInstanceOf(InputException.class).hasMessage("board.yaml:" + message);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "bus|bus: missing, expected converter channel in V",
                "pickup|pickup: missing, expected pulse input line",
                "range-park|range-park: missing beside the other range lines, expected input line",
                "sender-supply|sender-supply: missing beside pressure-sender, expected converter channel in V"
            })
    void shouldSayWhichFunctionIsMissing(String section, String message) {
        assertThatThrownBy(() -> read(without(section))).hasMessage("board.yaml:4:1: " + message);
    }

    private static String without(String section) {
        String file = GOOD.replaceFirst("(?m)^" + section + ":.*\n(  .*\n)+", "");
        assertThat(file).hasSizeLessThan(GOOD.length());
        return file;
    }

    @Test
    void shouldSayWhichFunctionTheBuildCountsOn() {
        Calibration calibration = BuildFile.loadNamed("demonstration").calibration();

        assertThatThrownBy(() -> BoardChecks.check("board.yaml", read(without("brake")), calibration))
                .isInstanceOf(InputException.class)
                .hasMessage("board.yaml: brake: missing, expected input line, because the build has brake-fitted");
    }

    @Test
    void shouldRefuseACoilLineThatIsPulledToTheUnsafeLevelAtReset() {
        Calibration closed = BuildFile.loadNamed("demonstration").calibration();
        Calibration open =
                closed.toBuilder().set(Key.NORMALLY_CLOSED_CONTACT, false).build();
        Board high = read(GOOD.replace("line: 17", "line: 7"));
        Board low = read(GOOD.replaceFirst("line: 17\n  active: high", "line: 17\n  active: low"));

        assertThatThrownBy(() -> BoardChecks.check("board.yaml", high, closed))
                .hasMessage(
                        "board.yaml: main-coil.line: found '7', which is pulled up at reset and so unsafe until the program"
                                + " runs, expected one of 9 to 27, or the other level in active");
        assertThatThrownBy(() -> BoardChecks.check("board.yaml", low, closed))
                .hasMessageContaining("pulled down at reset");
        BoardChecks.check("board.yaml", low, open);
        BoardChecks.check("board.yaml", high, open);
    }

    @Test
    void shouldTakeAContactThatIsALineAndAMinimalBench() {
        Board board = read("""
                name: bucket
                adc-1: {bus: 1, address: 0x48}
                main-coil: {line: 17}
                key: {line: 5}
                pickup: {line: 16}
                main-contact: {line: 20, active: low, pull: up}
                bus: {adc: 1, channel: 0, gain: 4096 mV, divider: 5.7}
                """);

        assertThat(board.input(BoardFunction.MAIN_CONTACT)).contains(new Wire.Input(20, false, Pull.UP));
        assertThat(board.analog(BoardFunction.MAIN_CONTACT)).isEmpty();
        assertThat(board.chip()).isEqualTo("pinctrl");
        assertThat(board.has(BoardFunction.LAMP)).isFalse();
    }

    @Test
    void shouldSayWhenThereIsNoSuchFileOrItIsADirectory(@TempDir Path directory) {
        Path missing = directory.resolve("board.yaml");

        assertThatThrownBy(() -> BoardFile.load(missing))
                .isInstanceOf(InputException.class)
                .hasMessage(missing + ": found no such file, expected a board file");
        assertThatThrownBy(() -> BoardFile.load(directory))
                .hasMessage(directory + ": found a directory, expected a board file");
    }
}
