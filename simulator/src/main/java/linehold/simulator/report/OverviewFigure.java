package linehold.simulator.report;

import java.util.List;
import linehold.simulator.build.Display;
import linehold.simulator.prove.Loss;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.run.Overview;

/** The whole of a drive: shaft speed once, then line pressure at each oil temperature, on the same time axis. */
final class OverviewFigure {
    private static final double SPEED_HEIGHT = 80;
    private static final double PRESSURE_HEIGHT = 74;
    private static final double LANE_HEIGHT = 10;

    private final Display display;
    private final double holdPressurePa;

    OverviewFigure(Display display, double holdPressurePa) {
        this.display = display;
        this.holdPressurePa = holdPressurePa;
    }

    /** One drawing for the speed and one for each run, so that a page may break between them. */
    void write(Markup html, String id, List<RunVerdict> runs) {
        speed(html, id + "-n", runs.get(0));
        double highestPa = 1.2 * holdPressurePa;
        for (RunVerdict run : runs) {
            double[] highs = run.overview().pressureMaxPa();
            double high = Columns.extreme(highs, 0, highs.length, true);
            highestPa = Double.isNaN(high) ? highestPa : Math.max(highestPa, high);
        }
        for (int i = 0; i < runs.size(); i++) {
            pressure(html, id + "-p" + i, runs.get(i), highestPa);
        }
    }

    private void speed(Markup html, String id, RunVerdict run) {
        Overview overview = run.overview();
        Display.Scale rpm = display.speedScale();
        Columns columns = Columns.ofSlots(
                overview.slotS(),
                values(rpm, overview.speedMinRadPerS()),
                values(rpm, overview.speedMaxRadPerS()),
                Plot.COLUMNS);
        double low = Math.min(0, orZero(Columns.extreme(columns.low(), 0, columns.low().length, false)));
        double high = Math.max(100, orZero(Columns.extreme(columns.high(), 0, columns.high().length, true)));
        Plot.open(
                html,
                id,
                SPEED_HEIGHT + 34,
                "Shaft speed over the drive " + run.drive(),
                "Band from lowest to highest shaft speed, between " + Numbers.fixed(low, 0) + " and "
                        + Numbers.fixed(high, 0) + " " + rpm.label() + ".");
        Plot plot = new Plot(html, 0, run.durationS());
        plot.caption("Shaft speed", "t strong");
        Axis axis = plot.panel(SPEED_HEIGHT, low, high, rpm.label());
        plot.band(axis, columns, "speed");
        plot.timeAxis();
        html.close().line();
    }

    private void pressure(Markup html, String id, RunVerdict run, double highestPa) {
        Overview overview = run.overview();
        Display.Scale scale = display.pressureScale();
        Plot.open(
                html,
                id,
                PRESSURE_HEIGHT + 15 + 2 * (LANE_HEIGHT + 3) + 24,
                "Line pressure at " + display.temperature(run.oilC()) + " over the drive " + run.drive(),
                "Band from lowest to highest line pressure with the hold pressure of "
                        + scale.text(holdPressurePa)
                        + "; below it the share of time with the electric pump on and with an element engaged. "
                        + lowest(run));
        Plot plot = new Plot(html, 0, run.durationS());
        plot.levelKey("hold " + scale.text(holdPressurePa));
        plot.caption(
                "Line pressure at " + display.temperature(run.oilC()) + ": " + (run.held() ? "held" : "LOST") + ". "
                        + lowest(run),
                "t strong");
        double top = plot.y();
        Axis axis = plot.panel(PRESSURE_HEIGHT, 0, scale.value(highestPa), scale.label());
        Columns columns = Columns.ofSlots(
                overview.slotS(),
                values(scale, overview.pressureMinPa()),
                values(scale, overview.pressureMaxPa()),
                Plot.COLUMNS);
        plot.band(axis, columns, "pressure");
        plot.level(axis, scale.value(holdPressurePa));
        if (Double.isFinite(run.lowPoint().atS())
                && Double.isFinite(run.lowPoint().pressurePa())) {
            plot.mark(axis, run.lowPoint().atS(), scale.value(run.lowPoint().pressurePa()));
        }
        for (Loss loss : run.losses()) {
            if (Double.isFinite(loss.atS())) {
                plot.cross(loss.atS(), top);
            }
        }
        plot.shareLane("pump on", LANE_HEIGHT, overview.slotS(), overview.pumpOnShare(), "pump");
        plot.shareLane("engaged", LANE_HEIGHT, overview.slotS(), overview.engagedShare(), "engaged");
        plot.timeAxis();
        html.close().line();
    }

    private String lowest(RunVerdict run) {
        if (!Double.isFinite(run.lowPoint().pressurePa())) {
            return "No element was ever engaged.";
        }
        return "Lowest while engaged: " + display.pressure(run.lowPoint().pressurePa()) + " at "
                + Numbers.fixed(run.lowPoint().atS(), 2) + " s.";
    }

    private static double orZero(double value) {
        return Double.isNaN(value) ? 0 : value;
    }

    static double[] values(Display.Scale scale, double[] si) {
        double[] values = new double[si.length];
        for (int i = 0; i < si.length; i++) {
            values[i] = scale.value(si[i]);
        }
        return values;
    }
}
