package linehold.simulator.report;

import java.util.function.ToDoubleFunction;
import linehold.simulator.build.Display;
import linehold.simulator.window.CarryPoint;
import linehold.simulator.window.Window;

/** Carry speeds over oil temperature. */
final class CarryFigure {
    private static final double HEIGHT = 250;
    private static final double TOP = 30;
    private static final double BOTTOM = 206;

    private final Window window;
    private final Display display;
    private final Markup html;
    private final Axis oil;
    private final Axis speed;

    private CarryFigure(Window window, Display display, Markup html) {
        this.window = window;
        this.display = display;
        this.html = html;
        double coldest = display.temperatureScale().value(window.oilC().get(0));
        double hottest =
                display.temperatureScale().value(window.oilC().get(window.oilC().size() - 1));
        oil = Axis.over(coldest, hottest, Plot.LEFT, Plot.RIGHT, 10);
        double highest = 1;
        for (CarryPoint point : window.carry()) {
            highest = Math.max(highest, finite(display.speedScale().value(point.holdRadPerS())));
            highest = Math.max(highest, finite(display.speedScale().value(point.forwardRadPerS())));
            highest = Math.max(highest, finite(display.speedScale().value(point.reverseRadPerS())));
        }
        speed = Axis.over(0, 1.06 * highest, BOTTOM, TOP, 8);
    }

    static void write(Window window, Display display, Markup html) {
        new CarryFigure(window, display, html).write();
    }

    private void write() {
        Plot.open(
                html,
                "carry",
                HEIGHT,
                "Carry speed over oil temperature",
                "Lowest shaft speed at which the internal pump alone makes the hold pressure, and the pressures that the"
                        + " largest torques need. The hotter the oil the higher the speed.");
        frame();
        trace("pressure", CarryPoint::holdRadPerS);
        trace("element", CarryPoint::forwardRadPerS);
        trace("held", CarryPoint::reverseRadPerS);
        key(
                Plot.LEFT,
                "pressure",
                "hold pressure " + display.pressure(window.build().limits().holdPressurePa()));
        key(Plot.LEFT + 230, "element", "largest torque forward");
        key(Plot.LEFT + 430, "held", "largest torque in reverse");
        html.close().line();
    }

    private void frame() {
        PathData grid = new PathData();
        for (double tick : speed.ticks()) {
            grid.moveTo(Plot.LEFT, speed.px(tick)).lineTo(Plot.RIGHT, speed.px(tick));
            label("end", Plot.LEFT - 6, speed.px(tick) + 4, speed.label(tick));
        }
        for (double tick : oil.ticks()) {
            grid.moveTo(oil.px(tick), TOP).lineTo(oil.px(tick), BOTTOM);
            label("middle", oil.px(tick), BOTTOM + 15, oil.label(tick));
        }
        html.empty("path", "class", "grid", "d", grid.toString());
        label(
                "middle",
                (Plot.LEFT + Plot.RIGHT) / 2,
                BOTTOM + 33,
                "oil temperature, " + display.temperatureScale().label());
        html.element(
                "text",
                "shaft speed, rpm",
                "class",
                "t",
                "text-anchor",
                "middle",
                "transform",
                "translate(13 " + Numbers.place((TOP + BOTTOM) / 2) + ") rotate(-90)");
    }

    private void trace(String cssClass, ToDoubleFunction<CarryPoint> value) {
        PathData path = new PathData();
        boolean pen = false;
        for (CarryPoint point : window.carry()) {
            double radPerS = value.applyAsDouble(point);
            double x = oil.px(display.temperatureScale().value(point.oilC()));
            if (Double.isNaN(radPerS)) {
                pen = false;
                continue;
            }
            double y = speed.px(display.speedScale().value(radPerS));
            if (pen) {
                path.lineTo(x, y);
            } else {
                path.moveTo(x, y);
            }
            pen = true;
        }
        if (!path.isEmpty()) {
            html.empty("path", "class", "trace " + cssClass, "d", path.toString());
        }
    }

    private void key(double x, String cssClass, String name) {
        PathData sample = new PathData().moveTo(x, 12).lineTo(x + 26, 12);
        html.empty("path", "class", "trace " + cssClass, "d", sample.toString());
        label("start", x + 31, 16, name);
    }

    private void label(String anchor, double x, double y, String text) {
        html.element("text", text, "class", "t", "text-anchor", anchor, "x", Numbers.place(x), "y", Numbers.place(y));
    }

    private static double finite(double value) {
        return Double.isFinite(value) ? value : 0;
    }
}
