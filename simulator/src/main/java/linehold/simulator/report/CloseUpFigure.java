package linehold.simulator.report;

import java.util.Arrays;
import java.util.function.Function;
import linehold.simulator.build.Display;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.run.CloseUp;

/** The worst seconds of a run at full rate: pressures, shaft speed as it is and as it is seen, pump, states. */
final class CloseUpFigure {
    private final Display display;
    private final double holdPressurePa;

    CloseUpFigure(Display display, double holdPressurePa) {
        this.display = display;
        this.holdPressurePa = holdPressurePa;
    }

    void write(Markup html, String id, RunVerdict run) {
        CloseUp closeUp = run.closeUp();
        double[] timeS = closeUp.timeS();
        String where = run.drive() + " at " + display.temperature(run.oilC());
        Plot.open(
                html,
                id,
                492,
                "Close-up of " + where,
                "Line pressure, element pressure, shaft speed true and as seen by the controller, pump speed and states"
                        + " around " + Numbers.fixed(closeUp.momentS(), 3) + " s. " + run.weakest());
        Plot plot = new Plot(html, timeS[0], timeS[timeS.length - 1]);
        pressures(plot, closeUp);
        speeds(plot, closeUp);
        pump(plot, closeUp);
        plot.gap(4);
        plot.flagLane("coil", timeS, closeUp.coil(), "coil");
        plot.flagLane("contact", timeS, closeUp.contact(), "pump");
        plot.stateLane("controller", timeS, words(closeUp.state(), Words::of));
        plot.stateLane("gear", timeS, words(closeUp.gear(), Words::of));
        plot.stateLane("element", timeS, words(closeUp.engagement(), Words::of));
        plot.stateLane("drive", timeS, words(closeUp.permission(), Words::of));
        plot.timeAxis();
        plot.moment(closeUp.momentS());
        html.close().line();
    }

    private void pressures(Plot plot, CloseUp closeUp) {
        Display.Scale scale = display.pressureScale();
        double[] line = OverviewFigure.values(scale, closeUp.linePressurePa());
        double[] element = OverviewFigure.values(scale, closeUp.elementPressurePa());
        plot.levelKey("hold " + scale.text(holdPressurePa));
        plot.key(Plot.LEFT, "line pressure", "pressure");
        plot.key(Plot.LEFT + 150, "pressure of the commanded element", "element");
        plot.gap(15);
        double high = Math.max(scale.value(holdPressurePa) * 1.2, Math.max(highest(line), highest(element)));
        Axis axis = plot.panel(128, 0, high, scale.label());
        plot.trace(axis, closeUp.timeS(), element, "element");
        plot.trace(axis, closeUp.timeS(), line, "pressure");
        plot.level(axis, scale.value(holdPressurePa));
    }

    private void speeds(Plot plot, CloseUp closeUp) {
        Display.Scale scale = display.speedScale();
        double[] shaft = OverviewFigure.values(scale, closeUp.shaftSpeedRadPerS());
        double[] seen = OverviewFigure.values(scale, closeUp.seenSpeedRadPerS());
        plot.gap(4);
        plot.key(Plot.LEFT, "shaft speed", "speed");
        plot.key(Plot.LEFT + 150, "shaft speed as the controller sees it", "seen");
        plot.gap(15);
        double low = Math.min(0, Math.min(lowest(shaft), lowest(seen)));
        Axis axis = plot.panel(96, low, Math.max(100, Math.max(highest(shaft), highest(seen))), scale.label());
        plot.trace(axis, closeUp.timeS(), shaft, "speed");
        plot.trace(axis, closeUp.timeS(), seen, "seen");
    }

    private void pump(Plot plot, CloseUp closeUp) {
        Display.Scale scale = display.speedScale();
        double[] pump = OverviewFigure.values(scale, closeUp.pumpSpeedRadPerS());
        plot.gap(4);
        plot.key(Plot.LEFT, "electric pump speed", "pumpspeed");
        plot.gap(15);
        Axis axis = plot.panel(64, 0, Math.max(100, highest(pump)), scale.label());
        plot.trace(axis, closeUp.timeS(), pump, "pumpspeed");
    }

    private static double highest(double[] values) {
        double found = Columns.extreme(values, 0, values.length, true);
        return Double.isNaN(found) ? 0 : found;
    }

    private static double lowest(double[] values) {
        double found = Columns.extreme(values, 0, values.length, false);
        return Double.isNaN(found) ? 0 : found;
    }

    private static <T> String[] words(T[] values, Function<T, String> word) {
        return Arrays.stream(values)
                .map(value -> value == null ? "" : word.apply(value))
                .toArray(String[]::new);
    }
}
