package linehold.simulator.build;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Every fault of a build file is one sentence with file, line, column, key, what was found and what was expected. */
class BadBuildFilesTest {
    private static final String GOOD = GoodFile.TEXT;
    private static final String VOLUME =
            "expected a volume such as '0.60 L' (m3, L, mL, cm3, in3, gal) between 0.01 L and 20 L";

    static Stream<Arguments> valuesThatAreNoSuchQuantity() {
        String line = "  volume: 0.60 L\n";
        return Stream.of(
                arguments(line, "  volume: 0.6 bar\n", "18:11: line.volume: found '0.6 bar', " + VOLUME),
                arguments(line, "  volume: 0.60\n", "18:11: line.volume: found '0.60', " + VOLUME),
                arguments(line, "  volume: 0,60 L\n", "18:11: line.volume: found '0,60 L', " + VOLUME),
                arguments(line, "  volume: 60 L\n", "18:11: line.volume: found '60 L', " + VOLUME),
                arguments(line, "  volume: -0.6 L\n", "18:11: line.volume: found '-0.6 L', " + VOLUME),
                arguments(line, "  volume:\n", "18:10: line.volume: found nothing, " + VOLUME),
                arguments(line, "  volume: [0.60 L]\n", "18:11: line.volume: found a list, " + VOLUME),
                arguments(line, "  volume: {a: 1}\n", "18:11: line.volume: found a mapping, " + VOLUME),
                arguments(
                        "pulses-per-revolution: 4",
                        "pulses-per-revolution: 2.5",
                        "123:26: sensors.pulses-per-revolution: found '2.5', expected a whole number such as '4' between"
                                + " 1 and 120"),
                arguments(
                        "adc-resolution: 12 bit",
                        "adc-resolution: 12",
                        "129:19: sensors.adc-resolution: found '12', expected a resolution such as '12 bit' between 8 bit"
                                + " and 24 bit"),
                arguments(
                        "drum-helps: true",
                        "drum-helps: perhaps",
                        "79:15: low-band.drum-helps: found 'perhaps', expected true or false"),
                arguments("units: metric", "units: imperial", "6:8: units: found 'imperial', expected metric or us"),
                arguments(
                        "name: demonstration",
                        "name: ''",
                        "4:7: name: found nothing, expected a text of 1 to 200 characters such as 'my car'"),
                arguments(
                        "[-20 °C, 20 °C,",
                        "[20 °C, -20 °C,",
                        "142:29: limits.oil-temperatures: found '-20 °C', expected a rising list such as"
                                + " '[-20 °C, 20 °C, 100 °C]' (°C, °F, K), each between -50 °C and 180 °C"));
    }

    static Stream<Arguments> keysThatAreMissingOrUnknown() {
        String line = "  volume: 0.60 L\n";
        return Stream.of(
                arguments(line, "", "17:1: line.volume: missing, " + VOLUME),
                arguments(line, "  volum: 0.60 L\n", "18:3: line.volum: found an unknown key, expected 'volume'"),
                arguments(
                        line,
                        line + "  viscosity-40: 34 mm2/s\n",
                        "19:3: line.viscosity-40: found an unknown key, expected 'oil.viscosity-40'"),
                arguments(
                        line,
                        line + "  zeal: 1\n",
                        "19:3: line.zeal: found an unknown key, expected one of volume, compliance, laminar-leak,"
                                + " leak-bore, discharge-coefficient, linear-below, accumulator"),
                arguments(
                        line,
                        line + line,
                        "19:3: found key 'volume' a second time, expected it once (it stands at line 18)"),
                arguments(
                        "calibration:\n",
                        "calibrations:\n",
                        "147:1: calibrations: found an unknown key, expected 'calibration'"),
                arguments(
                        "  switch-on-speed: 700 rpm\n",
                        "  hold-pressure: 4 bar\n",
                        "148:3: calibration.hold-pressure: found an unknown key, expected 'limits.hold-pressure'"),
                arguments(
                        line,
                        line + "  accumulator: 3 bar\n",
                        "19:16: line.accumulator: found '3 bar', expected keys and values below it"),
                arguments(
                        line,
                        line + "  accumulator:\n    precharge-absolute: 3 bar\n",
                        "19:3: line.accumulator.gas-volume: missing beside line.accumulator.precharge-absolute '3 bar'"
                                + " (line 20), expected a volume such as '0.3 L' (m3, L, mL, cm3, in3, gal) between 0.001 L"
                                + " and 10 L"),
                arguments(line, line + "  [1, 2]: 1\n", "19:3: found a list as a key, expected a word"));
    }

    static Stream<Arguments> textThatIsNoYamlOrTooMuchOfIt() {
        String line = "  volume: 0.60 L\n";
        return Stream.of(
                arguments(line, "\tvolume: 0.60 L\n", "18:1: found a tab before the first word, expected spaces"),
                arguments(
                        line,
                        "   volume: 0.60 L\n",
                        "19:3: found text that is not YAML: expected <block end>, but found '<block mapping start>'"),
                arguments(
                        line,
                        "  volume 0.60 L\n",
                        "19:13: found text that is not YAML: mapping values are not allowed here"),
                arguments(line, "  volume: &v 0.60 L\n", "18:11: found an anchor or alias, expected the value itself"),
                arguments(line, "  volume: *v\n", "18:11: found an anchor or alias, expected the value itself"),
                arguments("calibration:\n", "---\ncalibration:\n", "147:1: found a second document, expected one"),
                arguments(GOOD, "", "1:1: found an empty file, expected keys and values"),
                arguments(GOOD, "# to do\n", "1:1: found an empty file, expected keys and values"),
                arguments(GOOD, "- a\n- b\n", "1:1: found a list, expected keys and values"),
                arguments(GOOD, "hello\n", "1:1: found 'hello', expected keys and values"),
                arguments(
                        GOOD,
                        "name: " + "[".repeat(5000),
                        "1:17: found more than 10 levels of nesting, expected fewer"),
                arguments(GOOD, "name: x\u0001\n", "1:8: found the control character U+0001, expected a text file"),
                arguments(GOOD, " ".repeat((1 << 20) + 1), "1:1: found 1048577 bytes, expected at most 1048576"));
    }

    static Stream<Arguments> valuesThatContradictEachOther() {
        return Stream.of(
                arguments(
                        "viscosity-100: 7.2 mm2/s",
                        "viscosity-100: 40 mm2/s",
                        "9:17: oil.viscosity-40: found '34.0 mm2/s', expected more than oil.viscosity-100 '40 mm2/s' (line"
                                + " 10)"),
                arguments(
                        "set-park-neutral: 6 bar",
                        "set-park-neutral: 4 bar",
                        "33:21: regulator.set-park-neutral: found '4 bar', expected more than limits.hold-pressure '4.0"
                                + " bar' (line 138)"),
                arguments(
                        "return-pressure: 0.6 bar",
                        "return-pressure: 1.0 bar",
                        "73:19: low-band.touch-pressure: found '1.0 bar', expected more than low-band.return-pressure '1.0"
                                + " bar' (line 72)"),
                arguments(
                        "touch-pressure: 1.0 bar",
                        "touch-pressure: 4.5 bar",
                        "73:19: low-band.touch-pressure: found '4.5 bar', expected less than limits.hold-pressure '4.0"
                                + " bar' (line 138)"),
                arguments(
                        "dry-friction: 0.03 N.m",
                        "dry-friction: 4 N.m",
                        "41:17: electric-pump.dry-friction: found '4 N.m', expected less than 3.17 N.m, the stall torque on"
                                + " this supply, given electric-pump.motor-constant '0.042 V.s/rad' (line 38)"),
                arguments(
                        "first-ratio: 1.82",
                        "first-ratio: 1.00",
                        "104:16: gears.first-ratio: found '1.00', expected more than gears.top-ratio '1.00' (line 105)"),
                arguments(
                        "shift-down: 1100 rpm",
                        "shift-down: 1500 rpm",
                        "109:15: gears.shift-down: found '1500 rpm', expected less than 1374 rpm, to which the motor falls"
                                + " after shifting up (or the gears hunt), given gears.shift-up '2500 rpm' (line 108)"),
                arguments(
                        "pressure-full-scale: 20 bar",
                        "pressure-full-scale: 12 bar",
                        "125:24: sensors.pressure-full-scale: found '12 bar', expected more than regulator.set-reverse '14"
                                + " bar' (line 32)"),
                arguments(
                        "  adc-full-scale: 5 V\n",
                        "  adc-full-scale: 3.3 V\n",
                        "130:19: sensors.adc-full-scale: found '3.3 V', expected at least sensors.sender-supply '5 V' (line"
                                + " 128)"),
                arguments(
                        "engagement-cold: 5 s",
                        "engagement-cold: 1 s",
                        "141:20: limits.engagement-cold: found '1 s', expected at least limits.engagement-warm '1.2 s'"
                                + " (line 140)"));
    }

    static Stream<Arguments> calibrationsThatContradictThemselvesOrTheCar() {
        String first = "calibration:\n";
        String carry =
                "expected a shaft speed or a mapping from rising oil temperatures such as '{20 °C: 50 rpm, 60 °C: 110"
                        + " rpm, 100 °C: 185 rpm, 120 °C: 250 rpm}' (rad/s, rpm, rev/s) between 0 rpm and 5000 rpm";
        return Stream.of(
                arguments(
                        "switch-on-speed: 700 rpm",
                        "switch-on-speed: 900 rpm",
                        "149:21: calibration.switch-off-speed: switch-off-speed (900 rpm) must exceed by at least 50 rpm"
                                + " switch-on-speed (900 rpm)"),
                arguments(
                        "hold-pressure: 4.0 bar",
                        "hold-pressure: 5 bar",
                        "147:1: calibration.hand-over-pressure: hand-over-pressure (4.5 bar) must be at least hold-pressure"
                                + " (5 bar), and the file leaves it at its default"),
                arguments(
                        first,
                        first + "  carry-speed: 1000 rpm\n",
                        "149:20: calibration.switch-on-speed: switch-on-speed (700 rpm) must be at least carry-speed (1000"
                                + " rpm)"),
                arguments(
                        first,
                        first + "  carry-speed: {20 °C: 50 rpm, 10 °C: 60 rpm}\n",
                        "148:32: calibration.carry-speed: found '10 °C', " + carry),
                arguments(
                        first,
                        first + "  carry-speed: {20 °C: 50 bar}\n",
                        "148:24: calibration.carry-speed: found '50 bar', " + carry),
                arguments(
                        first,
                        first + "  carry-speed: {}\n",
                        "148:16: calibration.carry-speed: found a mapping, " + carry));
    }

    @ParameterizedTest
    @MethodSource({
        "valuesThatAreNoSuchQuantity",
        "keysThatAreMissingOrUnknown",
        "textThatIsNoYamlOrTooMuchOfIt",
        "valuesThatContradictEachOther",
        "calibrationsThatContradictThemselvesOrTheCar"
    })
    void shouldSayWhatIsWrongWhereAndWhatWasExpected(String good, String bad, String message) {
        assertThat(GOOD).contains(good);
        byte[] file = GOOD.replace(good, bad).getBytes(StandardCharsets.UTF_8);

        assertThatThrownBy(() -> BuildFile.parse("mycar.yaml", file))
                .isInstanceOf(InputException.class)
                .hasMessage("mycar.yaml:" + message);
    }

    @Test
    void shouldRefuseAReliefThatCannotOpenTheCheckValve() {
        String file = GOOD.replace("relief: 8.5 bar", "relief: 2 bar").replace("pressure: 0.3 bar", "pressure: 3 bar");

        assertThatThrownBy(() -> BuildFile.parse("mycar.yaml", file.getBytes(StandardCharsets.UTF_8)))
                .hasMessage("mycar.yaml:43:11: electric-pump.relief: found '2 bar', expected more than"
                        + " hose.cracking-pressure '3 bar' (line 46)");
    }

    @Test
    void shouldRefuseBytesThatAreNoText() {
        assertThatThrownBy(() -> BuildFile.parse("mycar.yaml", new byte[] {'n', ':', ' ', (byte) 0xff, '\n'}))
                .hasMessage("mycar.yaml:1:4: found the byte 0xFF, expected text in UTF-8");
        assertThatThrownBy(() -> BuildFile.parse("mycar.yaml", new byte[] {'n', ':', '\n', 0, 1, 2}))
                .hasMessage("mycar.yaml:2:1: found the control character U+0000, expected a text file");
    }

    @Test
    void shouldReadThroughAByteOrderMarkAndDosLineEnds() {
        String file = "\ufeff" + GOOD.replace("\n", "\r\n");

        assertThat(BuildFile.parse("mycar.yaml", file.getBytes(StandardCharsets.UTF_8))
                        .oil())
                .isEqualTo(Builds.demonstration().oil());
    }

    @Test
    void shouldSayWhenThereIsNoSuchFileOrItIsADirectory(@TempDir Path directory) {
        Path missing = directory.resolve("mycar.yaml");

        assertThatThrownBy(() -> BuildFile.load(missing))
                .isInstanceOf(InputException.class)
                .hasMessage(
                        missing + ": found no such file, expected a build file or one of demonstration, rule-of-thumb,"
                                + " weak");
        assertThatThrownBy(() -> BuildFile.load(directory))
                .isInstanceOf(InputException.class)
                .hasMessage(directory + ": found a directory, expected a build file");
        assertThatThrownBy(() -> BuildFile.loadNamed("demonstratoin"))
                .isInstanceOf(InputException.class)
                .hasMessage("demonstratoin: found no such file, expected a build file or one of demonstration,"
                        + " rule-of-thumb, weak");
    }

    @Test
    void shouldLoadAFileUnderAnyNameWithItsChecksum(@TempDir Path directory) throws IOException {
        Path file = Files.writeString(directory.resolve("mycar.yaml"), GOOD);

        // sha256sum of the file
        assertThat(BuildFile.loadNamed(file.toString()).sha256())
                .isEqualTo("0bffce87d9bfd502146ded48febae39f11950919c4773264eaff2e7dc8174af4");
    }
}
