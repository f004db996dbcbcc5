package linehold.simulator.report;

import java.util.List;
import linehold.simulator.build.Display;
import linehold.simulator.window.Setting;
import linehold.simulator.window.Window;
import linehold.simulator.window.Window.StopLimit;
import linehold.simulator.window.Window.WindowMap;

/**
 * Lowest line pressure over switch-on speed and rate of the stop at one oil temperature: a cell with its number for each
 * pair tried, with the contour of the hold pressure, the recommended speed and the rule of thumb. Cells are of equal size,
 * so both axes are stretched between the values tried.
 */
final class WindowMapFigure {
    private static final double TOP = 52;
    private static final double ROW = 19;
    private static final double LEFT = 74;
    private static final double RIGHT = 746;

    private final Window window;
    private final Display display;
    private final WindowMap map;
    private final Markup html;
    private final int rows;
    private final double column;

    private WindowMapFigure(Window window, Display display, WindowMap map, Markup html) {
        this.window = window;
        this.display = display;
        this.map = map;
        this.html = html;
        rows = map.onRadPerS().size();
        column = (RIGHT - LEFT) / map.rates().size();
    }

    static void write(Window window, Display display, WindowMap map, Markup html, String id) {
        new WindowMapFigure(window, display, map, html).write(id);
    }

    private void write(String id) {
        double height = TOP + rows * ROW + 44;
        String at = display.temperature(map.oilC());
        Plot.open(
                html,
                id,
                height,
                "Lowest line pressure with oil at " + at,
                "Lowest line pressure in " + display.pressureScale().label()
                        + " for each switch-on speed (upward) and each" + " rate of the stop (rightward), speed alone. "
                        + contourSentence());
        text(
                "t strong",
                "start",
                LEFT,
                16,
                "Oil at " + at + ": lowest pressure, " + display.pressureScale().label());
        key();
        cells();
        axes();
        contour();
        level("mark", window.pair() == null ? Double.NaN : window.pair().onRadPerS());
        level("moment", Window.RULE_RAD_PER_S);
        html.close().line();
    }

    private void key() {
        double y = 36;
        line("hold", LEFT, y, LEFT + 28, y);
        text("t", "start", LEFT + 34, y + 4, "hold " + display.pressure(holdPa()) + ": lost below the line");
        line("moment", LEFT + 270, y, LEFT + 298, y);
        text("t", "start", LEFT + 304, y + 4, "500 rpm rule");
        if (window.pair() != null) {
            line("mark", LEFT + 420, y, LEFT + 448, y);
            text(
                    "t",
                    "start",
                    LEFT + 454,
                    y + 4,
                    "recommended " + display.speed(window.pair().onRadPerS()));
        }
    }

    private void cells() {
        for (int row = 0; row < rows; row++) {
            double y = TOP + (rows - 1 - row) * ROW;
            for (int c = 0; c < map.rates().size(); c++) {
                double pa = map.lowestPa().get(row).get(c);
                double x = LEFT + c * column;
                html.empty(
                        "rect",
                        "class",
                        "cell " + shade(pa),
                        "x",
                        Numbers.place(x),
                        "y",
                        Numbers.place(y),
                        "width",
                        Numbers.place(column),
                        "height",
                        Numbers.place(ROW));
                String number = display.pressureScale().number(pa);
                text(
                        pa < holdPa() ? "t lostnumber" : "t",
                        "middle",
                        x + column / 2,
                        y + ROW - 5.5,
                        pa < holdPa() ? "✕ " + number : number);
            }
        }
        html.line();
    }

    /** Lost, barely kept, kept, kept with half as much again. */
    private String shade(double pa) {
        double part = pa / holdPa();
        return part < 0.75 ? "deep" : part < 1 ? "low" : part < 1.1 ? "near" : part < 1.5 ? "good" : "high";
    }

    private void axes() {
        for (int row = 0; row < rows; row++) {
            String name = display.speedScale().number(map.onRadPerS().get(row));
            text("t", "end", LEFT - 6, TOP + (rows - row) * ROW + 4, name);
        }
        double bottom = TOP + rows * ROW;
        for (int c = 0; c < map.rates().size(); c++) {
            String name = display.accelerationScale().number(map.rates().get(c));
            text("t", "middle", LEFT + (c + 0.5) * column, bottom + 14, name);
        }
        text("t", "middle", (LEFT + RIGHT) / 2, bottom + 31, "how fast the shaft stops, rpm/s");
        html.element(
                "text",
                "switch-on speed, rpm",
                "class",
                "t",
                "text-anchor",
                "middle",
                "transform",
                "translate(14 " + Numbers.place(TOP + rows * ROW / 2) + ") rotate(-90)");
    }

    /** Along the cells' edges, below the first row at or above the lowest speed that the search found. */
    private void contour() {
        PathData path = new PathData();
        boolean pen = false;
        List<StopLimit> stops = stops();
        for (int c = 0; c < stops.size(); c++) {
            double y = edge(stops.get(c).found(Setting.ALONE).onRadPerS());
            if (Double.isNaN(y)) {
                pen = false;
                continue;
            }
            double x = LEFT + c * column;
            if (pen) {
                path.lineTo(x, y);
            } else {
                path.moveTo(x, y);
            }
            path.lineTo(x + column, y);
            pen = true;
        }
        if (!path.isEmpty()) {
            html.empty("path", "class", "hold contour", "d", path.toString());
        }
    }

    private String contourSentence() {
        double most = stops().stream()
                .mapToDouble(stop -> stop.found(Setting.ALONE).onRadPerS())
                .reduce(0, (a, b) -> Double.isNaN(a) || Double.isNaN(b) ? Double.NaN : Math.max(a, b));
        return Double.isNaN(most)
                ? "Some stops are lost at every switch-on speed."
                : "Every stop is kept from " + display.speed(most) + " on.";
    }

    private List<StopLimit> stops() {
        return window.stops().stream().filter(stop -> stop.oilC() == map.oilC()).toList();
    }

    private void level(String cssClass, double radPerS) {
        double y = edge(radPerS);
        if (!Double.isNaN(y)) {
            line(cssClass, LEFT, y, RIGHT, y);
        }
    }

    /** The lower edge of the first row at or above a speed; a row's lower edge is its own speed. */
    private double edge(double radPerS) {
        for (int row = 0; row < rows; row++) {
            if (radPerS <= map.onRadPerS().get(row) * (1 + 1e-9)) {
                return TOP + (rows - row) * ROW;
            }
        }
        return Double.isNaN(radPerS) ? Double.NaN : TOP;
    }

    private double holdPa() {
        return window.build().limits().holdPressurePa();
    }

    private void line(String cssClass, double x1, double y1, double x2, double y2) {
        html.empty(
                "path",
                "class",
                cssClass,
                "d",
                new PathData().moveTo(x1, y1).lineTo(x2, y2).toString());
    }

    private void text(String cssClass, String anchor, double x, double y, String text) {
        html.element(
                "text", text, "class", cssClass, "text-anchor", anchor, "x", Numbers.place(x), "y", Numbers.place(y));
    }
}
