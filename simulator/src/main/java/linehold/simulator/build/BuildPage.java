package linehold.simulator.build;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;

/** Writes docs/build-file.md from the table of keys. */
final class BuildPage {
    private static final String HEAD = """
            # The build file

            <!-- Generated from the code by GeneratedBuildPagesTest; edit BuildKey, FileKeys or the calibration keys. -->

            One YAML file describes one car: its oil, pumps, hose, relay, wiring, apply elements, gears, sensors, what
            counts as held, how the controller decides and, for the sizing sheet, the parts as they are fitted.
            `./linehold init mycar.yaml` writes a commented one to start from, `--units us` does so in psi, in³, lbf·ft and
            °F. Three ship with the program and are named without `.yaml`: `demonstration` (an invented car that holds on
            every demonstration drive), `rule-of-thumb` (the same car, switched at a fixed 500/600 rpm) and `weak` (the
            same again with too small an electric pump on a thin cable).

            **Care.** A verdict is only as good as these numbers. Oil under pressure injures and hot oil burns; a car that
            loses line pressure stops driving or rolls. Measure with the car secured and depressurised, follow local
            codes, and leave the work to people licensed for it.

            ## How values are written

            * A quantity is a number with a point as decimal mark, a space (or none) and a unit: `130 psi`, `0.6 L`.
              Powers of ten are written `5e-14 m3`. A number without a unit is refused where a unit belongs.
            * `N·m`, `N.m` and `Nm` are the same, so are `cm³` and `cm3`, `Ω` and `ohm`, `l` and `L`, `degC` and `°C`,
              `ft.lbf` and `lbf.ft`. Otherwise letter case counts. `gal` is the US gallon.
            * Pressures are above atmosphere, unless the key says absolute. Temperatures may be in °C, °F or K.
            * A flag is `true` or `false`, `yes` or `no`. A list is written `[-20 °C, 20 °C]` and rises.
            * A value over oil temperature is one quantity, or a mapping `{-20 °C: 3 s, 20 °C: 1.5 s}`: straight lines
              between the points, flat outside them.
            * A value of the car may have a spread: `24 cm3/rev ± 5 %`, `1.0 mm ± 0.05 mm`, `-45 °C ± 3 K`, with `+-` for
              `±` where the keyboard lacks it. It tells how far the value may lie off to either side from car to car, or
              off what was measured. A percentage is one of the value, `3 % ± 50 %` being 1.5 % to 4.5 %; otherwise the
              spread has a unit, for a temperature that of a difference. No value needs a spread; limits, settings of
              the controller, whole numbers and the section `installation` have none. Verdicts are about the value
              itself; the spreads count where a command asks how many cars hold.
            * Each key once, indented by spaces. No anchors, no second document. At most 1 MiB of UTF-8.

            Anything else is refused in one sentence with file, line, column, key, what was found and what was expected.
            An editor that knows JSON Schema completes and checks the file with [build-file.schema.json](build-file.schema.json).

            ## Units

            Factors: NIST Special Publication 811 (2008), Appendix B; `UnitReferenceTest` checks them.

            | quantity | units |
            |---|---|
            """;

    private static final String CHECKS = """

            ## Checks between keys

            Where values have spreads, these hold in any car within them.

            * `oil.viscosity-100` below `oil.viscosity-40`.
            * `line.accumulator`: both keys or none.
            * Each regulator set pressure above `limits.hold-pressure`.
            * `electric-pump.relief` above `hose.cracking-pressure`; `electric-pump.dry-friction` below the stall torque
              K·V/R of the motor on this supply.
            * Of each apply element: `touch-pressure` above `return-pressure` and below `limits.hold-pressure`. The force of
              the return spring is not typed: it is piston area times touch pressure, so that capacity rises from zero at
              touch.
            * `gears.first-ratio` above `gears.top-ratio`; `gears.shift-down` below the motor speed that follows a shift up,
              or the gears would hunt.
            * `sensors.pressure-full-scale` above the set pressures in D and R; `sensors.adc-full-scale` at least
              `sensors.sender-supply`.
            * `limits.engagement-cold` at least `limits.engagement-warm`.
            * `installation.coupling.minor-diameter` below `installation.coupling.major-diameter`.
            * The calibration must not contradict itself or the car, for example the switch-off speed must exceed the
              switch-on speed by what the pickup can resolve and by at least 50 rpm.

            What the controller needs to know of the car (hold pressure, pulses per revolution, sender range, what is
            fitted, relief and touch pressures, engagement limits, torque per pressure) is taken from the other sections
            and not typed again. Torque per pressure of the band counts drum torque against it, whichever way the motor
            pulls, because a torque limit must hold on the overrun too.
            """;

    private BuildPage() {}

    static String text() {
        StringBuilder page = new StringBuilder(HEAD);
        for (Quantity quantity : Quantity.values()) {
            String labels = quantity.units().stream()
                    .map(unit -> unit.label().isEmpty() ? "none" : "`" + unit.label() + "`")
                    .collect(Collectors.joining(", "));
            page.append("| ")
                    .append(quantity.noun().replaceFirst("^an? ", ""))
                    .append(" | ")
                    .append(labels)
                    .append(" |\n");
        }
        page.append("\n## Keys\n\n")
                .append(
                        "Bounds are assumed: wide enough for any plausible car, narrow enough to catch a slipped unit or")
                .append(
                        " decimal point. *Good value from* says where yours should come from. A value outside the *usual*")
                .append(" range is taken, with a warning; [measuring.md](measuring.md) tells how to measure each.\n");
        table(page, "", "Top level.");
        FileKeys.SECTIONS.forEach(section -> table(page, section.path(), section.meaning()));
        return page.append(CHECKS).toString();
    }

    private static void table(StringBuilder page, String section, String meaning) {
        List<FileKey> keys = FileKeys.ALL.stream()
                .filter(key -> key.section().equals(section))
                .toList();
        page.append("\n### ")
                .append(section.isEmpty() ? "Top level" : "`" + section + "`")
                .append("\n\n");
        if (!section.isEmpty()) {
            page.append(meaning).append("\n\n");
        }
        boolean calibration = section.equals(FileKeys.CALIBRATION);
        row(
                page,
                "key",
                "example",
                "from",
                "to",
                calibration ? "" : "usual",
                "default",
                calibration ? "" : "good value from",
                "meaning");
        page.append(calibration ? "|---|---|---|---|---|---|\n" : "|---|---|---|---|---|---|---|---|\n");
        for (FileKey key : keys) {
            row(
                    page,
                    "`" + key.name() + "`",
                    "`" + key.example() + "`",
                    key.leastText() == null ? "–" : key.leastText(),
                    key.mostText() == null ? "–" : key.mostText(),
                    calibration ? "" : key.usual() == null ? "–" : key.usual().text(),
                    standard(key),
                    key.provenance() == null
                            ? ""
                            : key.quantity() == null ? "–" : key.provenance().text(),
                    key.meaning());
        }
    }

    private static String standard(FileKey key) {
        return switch (key.presence()) {
            case REQUIRED -> "required";
            case DEFAULT -> "`" + key.standard() + "`";
            case OPTIONAL -> "none";
        };
    }

    /** An empty cell is a column that this table does not have. */
    private static void row(StringBuilder page, String... cells) {
        page.append(
                Arrays.stream(cells).filter(cell -> !cell.isEmpty()).collect(Collectors.joining(" | ", "| ", " |\n")));
    }
}
