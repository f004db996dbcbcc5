package linehold.rig.board;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import linehold.rig.board.BoardFunction.Kind;

/** Writes docs/board-file.md from the functions and keys. */
final class BoardPage {
    private static final String HEAD = """
            # The board file

            <!-- Generated from the code by BoardPageTest; edit BoardFunction, BoardKey or BoardPage. -->

            One YAML file says which line or converter channel of a board is what. `./linehold rig --io pi --board
            board.yaml` uses it; `./linehold board board.yaml` writes a commented one to start from. The wiring that it
            describes is drawn in [wiring/bench.svg](wiring/bench.svg) and [wiring/car.svg](wiring/car.svg);
            [install.md](install.md) leads from there to a car.

            **Care.** The lines move relays, a pump and a car's drive. Secure the car against rolling, fuse the pump's
            supply, keep clear of hot oil under pressure, follow local codes, and leave the work to people licensed for it.

            ## How values are written

            As in the [build file](build-file.md): a quantity is a number and a unit (`4.096 V`, `1 kohm` or `1 kΩ`), each key
            stands once, indented by spaces. Anything else is refused in one sentence with file, line, column, key, what was
            found and what was expected; `rig` then ends with status 2 and no line has moved. No two functions share a line
            or a converter's channel.

            ## Functions

            Each function is a section. Outputs take their safe level when the program opens them and again when it lets go.

            """;

    private static final String CHECKS = """

            ## Checks between keys

            * Lines 2 and 3 carry I2C bus 1 and are no other function's while a converter is on that bus.
            * Beside `pressure-sender` and beside a thermistor stands `sender-supply`; range lines are four or none.
            * What the build says is fitted is on the board: sender, standby relay, pump current, oil temperature, brake,
              range, torque request.
            * A coil or permission line rests at its safe level between power-up and the start of the program: lines 0 to 8
              are pulled up at reset, 9 to 27 down (data sheet of the chip family, from memory). With `active: high` they
              therefore are among 9 to 27, with `active: low` among 0 to 8; the main coil the other way round where the
              pump hangs on a normally open contact. The pull inside the chip is weak: fit a resistor as the wiring shows.

            ## Converters

            The usual 16-bit converter with four channels on I2C is meant: conversion register 0x00, configuration register
            0x01, six full scales, 860 conversions a second, addresses 0x48 to 0x4b. All converters of a bus convert at the
            same time, channel by channel; at 400 kHz a round through four channels of two converters takes about 8 ms
            (computed). A value is as old as that when the controller sees it. No channel may see more than the converter's
            supply, whatever its full scale is.
            """;

    private BoardPage() {}

    static String text() {
        StringBuilder page = new StringBuilder(HEAD);
        row(page, "section", "is", "needed", "meaning");
        page.append("|---|---|---|---|\n");
        for (BoardFunction function : BoardFunction.values()) {
            row(
                    page,
                    code(function.section()),
                    function.kind().words(),
                    function.required() ? "always" : "where fitted",
                    function.meaning());
        }
        page.append("\n## Keys\n");
        table(page, "Top level", BoardReader.TOP_KEYS);
        table(page, "A converter: `adc-1` to `adc-4`", BoardReader.CONVERTER_KEYS);
        table(page, "An output line", Kind.OUTPUT.keys());
        table(page, "An input line", Kind.INPUT.keys());
        table(page, "The pickup", Kind.PICKUP.keys());
        table(page, "A converter channel in V", Kind.VOLTS.keys());
        table(page, "`pump-current`, `torque-request`: a channel with", List.of(BoardKey.POINTS));
        table(
                page,
                "`oil-temperature`: a channel with points, or with both of",
                List.of(BoardKey.PULL_UP, BoardKey.RESISTANCE));
        return page.append(CHECKS).toString();
    }

    private static void table(StringBuilder page, String title, List<BoardKey> keys) {
        page.append("\n### ").append(title).append("\n\n");
        row(page, "key", "example", "allowed", "default", "meaning");
        page.append("|---|---|---|---|---|\n");
        for (BoardKey key : keys) {
            row(
                    page,
                    code(key.word()),
                    code(key.example()),
                    key.range(),
                    key.standard() == null ? "required" : code(key.standard()),
                    key.meaning());
        }
    }

    private static String code(String text) {
        return "`" + text + "`";
    }

    private static void row(StringBuilder page, String... cells) {
        page.append(Arrays.stream(cells).collect(Collectors.joining(" | ", "| ", " |\n")));
    }
}
