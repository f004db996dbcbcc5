package linehold.simulator.report;

import java.util.ArrayList;
import java.util.List;

/**
 * One drawing over time: panels with a value axis and lanes for states, one below the other. Colours come from the
 * page's style sheet by class, so that it turns dark and prints well.
 */
final class Plot {
    static final double WIDTH = 760;
    static final double LEFT = 64;
    static final double RIGHT = 746;
    /** As many columns as the drawing is units wide, about. */
    static final int COLUMNS = 640;

    private final Markup svg;
    private final Axis time;
    /** From top to bottom of every panel and lane: where an upright line is drawn, so that it crosses no text. */
    private final List<double[]> rows = new ArrayList<>();

    private double y;

    /**
     * @param fromS first moment drawn, s
     * @param toS last moment drawn, s
     */
    Plot(Markup svg, double fromS, double toS) {
        this.svg = svg;
        this.time = Axis.over(fromS, toS, LEFT, RIGHT, 10);
    }

    /** Opens the drawing; {@code id} must be unique on the page. */
    static void open(Markup html, String id, double height, String title, String description) {
        html.open(
                "svg",
                "viewBox",
                "0 0 " + Numbers.place(WIDTH) + " " + Numbers.place(height),
                "role",
                "img",
                "aria-labelledby",
                id + "-t " + id + "-d");
        html.element("title", title, "id", id + "-t");
        html.element("desc", description, "id", id + "-d");
    }

    void gap(double height) {
        y += height;
    }

    double y() {
        return y;
    }

    /** A line of text above what follows. */
    void caption(String text, String cssClass) {
        y += 15;
        svg.element("text", text, "class", cssClass, "x", Numbers.place(LEFT), "y", Numbers.place(y - 4));
    }

    /** Frame, grid and value labels of a panel; the returned scale draws into it. */
    Axis panel(double height, double low, double high, String unit) {
        double air = 0.06 * (high - low);
        Axis values = Axis.over(low < 0 ? low - air : low, high + air, y + height, y, (int) Math.ceil(height / 20));
        PathData lines = new PathData();
        for (double tick : values.ticks()) {
            lines.moveTo(LEFT, values.px(tick)).lineTo(RIGHT, values.px(tick));
            label("end", LEFT - 6, values.px(tick) + 4, values.label(tick));
        }
        for (double tick : time.ticks()) {
            lines.moveTo(time.px(tick), y).lineTo(time.px(tick), y + height);
        }
        path("grid", lines);
        svg.element(
                "text",
                unit,
                "class",
                "t",
                "text-anchor",
                "middle",
                "transform",
                "translate(13 " + Numbers.place(y + height / 2) + ") rotate(-90)");
        box("frame", LEFT, y, RIGHT - LEFT, height);
        rows.add(new double[] {y, y + height});
        y += height;
        return values;
    }

    /** Time labels under what was drawn last; the last one has the unit. */
    void timeAxis() {
        y += 14;
        double[] ticks = time.ticks();
        for (int i = 0; i < ticks.length; i++) {
            boolean last = i == ticks.length - 1;
            String name = time.label(ticks[i]) + (last ? " s" : "");
            label(last ? "end" : "middle", last ? Math.min(RIGHT, time.px(ticks[i]) + 14) : time.px(ticks[i]), y, name);
        }
        y += 4;
    }

    /** The band between lowest and highest value. */
    void band(Axis values, Columns columns, String cssClass) {
        PathData path = new PathData();
        int n = columns.x().length;
        int begin = 0;
        while (begin < n) {
            if (Double.isNaN(columns.low()[begin])) {
                begin++;
                continue;
            }
            int end = begin;
            while (end < n && !Double.isNaN(columns.low()[end])) {
                end++;
            }
            path.moveTo(time.px(columns.x()[begin]), values.px(columns.high()[begin]));
            for (int i = begin + 1; i < end; i++) {
                path.lineTo(time.px(columns.x()[i]), values.px(columns.high()[i]));
            }
            for (int i = end - 1; i >= begin; i--) {
                path.lineTo(time.px(columns.x()[i]), values.px(columns.low()[i]));
            }
            path.closePath();
            begin = end;
        }
        path("band " + cssClass, path);
    }

    /** A trace of samples, broken where a value is missing; many samples in one column are drawn as their extremes. */
    void trace(Axis values, double[] timeS, double[] sample, String cssClass) {
        PathData path = new PathData();
        boolean pen = false;
        int begin = 0;
        while (begin < sample.length) {
            int end = begin + 1;
            long column = Math.round(time.px(timeS[begin]));
            while (end < sample.length && Math.round(time.px(timeS[end])) == column) {
                end++;
            }
            pen = traceColumn(path, pen, values, timeS, sample, begin, end);
            begin = end;
        }
        path("trace " + cssClass, path);
    }

    /** At most four points stand for a column: first, lowest, highest, last, in their order. */
    private boolean traceColumn(
            PathData path, boolean penDown, Axis values, double[] timeS, double[] sample, int begin, int end) {
        double low = Columns.extreme(sample, begin, end, false);
        double high = Columns.extreme(sample, begin, end, true);
        boolean pen = penDown;
        boolean lowDrawn = false;
        boolean highDrawn = false;
        for (int i = begin; i < end; i++) {
            double value = sample[i];
            if (!Double.isFinite(value)) {
                pen = false;
                continue;
            }
            boolean isLow = value == low && !lowDrawn;
            boolean isHigh = value == high && !highDrawn;
            if (!isLow && !isHigh && i != begin && i != end - 1 && pen) {
                continue;
            }
            lowDrawn |= isLow;
            highDrawn |= isHigh;
            if (pen) {
                path.lineTo(time.px(timeS[i]), values.px(value));
            } else {
                path.moveTo(time.px(timeS[i]), values.px(value));
                pen = true;
            }
        }
        return pen;
    }

    /** A level all along the panel. */
    void level(Axis values, double value) {
        path("hold", new PathData().moveTo(LEFT, values.px(value)).lineTo(RIGHT, values.px(value)));
    }

    /** What the dashed level of the next panel means, above its right end: inside it would hide what it marks. */
    void levelKey(String name) {
        double x = RIGHT - 6.2 * name.length();
        path("hold", new PathData().moveTo(x - 34, y + 7).lineTo(x - 5, y + 7));
        label("end", RIGHT, y + 11, name);
    }

    /** A lane filled in proportion to the share of each column. */
    void shareLane(String name, double height, double slotS, double[] share, String cssClass) {
        y += 3;
        double bottom = y + height;
        label("end", LEFT - 6, bottom - 1, name);
        PathData path = new PathData();
        double[] means = Columns.means(share, COLUMNS);
        double stepS = slotS * Math.max(1, (share.length + COLUMNS - 1) / COLUMNS);
        double endS = slotS * share.length;
        int i = 0;
        while (i < means.length) {
            // A sliver that happened must not round away.
            double filled = means[i] > 0 ? Math.max(1, means[i] * height) : 0;
            int end = i + 1;
            while (end < means.length && Math.abs(means[end] - means[i]) < 0.01 && means[end] > 0 == means[i] > 0) {
                end++;
            }
            if (filled > 0) {
                double left = time.px(Math.min(time.to(), i * stepS));
                double right = time.px(Math.min(time.to(), Math.min(endS, end * stepS)));
                path.moveTo(left, bottom).lineTo(left, bottom - filled).lineTo(right, bottom - filled);
                path.lineTo(right, bottom).closePath();
            }
            i = end;
        }
        path("lane " + cssClass, path);
        laneEnd(bottom);
    }

    /** A lane of named states: a box as long as each lasts, with its name where that fits. */
    void stateLane(String name, double[] timeS, String[] state) {
        y += 4;
        double height = 15;
        label("end", LEFT - 6, y + 11, name);
        int begin = 0;
        while (begin < state.length) {
            int end = begin + 1;
            while (end < state.length && state[end].equals(state[begin])) {
                end++;
            }
            double left = time.px(timeS[begin]);
            double right = time.px(timeS[Math.min(end, state.length - 1)]);
            if (!state[begin].isEmpty()) {
                box("state", left, y, right - left, height);
                if (right - left > 6.2 * state[begin].length() + 6) {
                    label("middle", (left + right) / 2, y + 11, state[begin]);
                }
            }
            begin = end;
        }
        laneEnd(y + height);
    }

    /** A lane that is filled where the flag is set. */
    void flagLane(String name, double[] timeS, boolean[] flag, String cssClass) {
        y += 4;
        double bottom = y + 10;
        label("end", LEFT - 6, bottom, name);
        PathData path = new PathData();
        int begin = 0;
        while (begin < flag.length) {
            int end = begin + 1;
            while (end < flag.length && flag[end] == flag[begin]) {
                end++;
            }
            if (flag[begin]) {
                double left = time.px(timeS[begin]);
                double right = time.px(timeS[Math.min(end, flag.length - 1)]);
                path.moveTo(left, bottom)
                        .lineTo(left, y)
                        .lineTo(right, y)
                        .lineTo(right, bottom)
                        .closePath();
            }
            begin = end;
        }
        path("lane " + cssClass, path);
        laneEnd(bottom);
    }

    /** A ring around a point. */
    void mark(Axis values, double s, double value) {
        svg.empty(
                "circle",
                "class",
                "mark",
                "cx",
                Numbers.place(time.px(s)),
                "cy",
                Numbers.place(values.px(value)),
                "r",
                "4.5");
    }

    /** A cross below the upper edge of a panel: here the run was lost. */
    void cross(double s, double top) {
        double px = time.px(s);
        double py = top + 8;
        path(
                "cross",
                new PathData()
                        .moveTo(px - 5, py - 5)
                        .lineTo(px + 5, py + 5)
                        .moveTo(px - 5, py + 5)
                        .lineTo(px + 5, py - 5));
    }

    /** An upright line at a moment through every panel and lane, its time written below the time axis. */
    void moment(double s) {
        PathData line = new PathData();
        for (double[] row : rows) {
            line.moveTo(time.px(s), row[0]).lineTo(time.px(s), row[1]);
        }
        path("moment", line);
        y += 12;
        svg.element(
                "text",
                Numbers.fixed(s, 3) + " s",
                "class",
                "t strong",
                "text-anchor",
                "middle",
                "x",
                Numbers.place(time.px(s)),
                "y",
                Numbers.place(y));
    }

    /** Line sample and name, so that a trace is told by its dashes as well as by its colour. */
    void key(double x, String name, String cssClass) {
        y += 15;
        path("trace " + cssClass, new PathData().moveTo(x, y - 8).lineTo(x + 26, y - 8));
        label("start", x + 31, y - 4, name);
        y -= 15;
    }

    private void laneEnd(double bottom) {
        path("laneline", new PathData().moveTo(LEFT, bottom).lineTo(RIGHT, bottom));
        rows.add(new double[] {y - 4, bottom});
        y = bottom;
    }

    private void label(String anchor, double x, double at, String text) {
        svg.element("text", text, "class", "t", "text-anchor", anchor, "x", Numbers.place(x), "y", Numbers.place(at));
    }

    private void box(String cssClass, double x, double top, double width, double height) {
        svg.empty(
                "rect",
                "class",
                cssClass,
                "x",
                Numbers.place(x),
                "y",
                Numbers.place(top),
                "width",
                Numbers.place(Math.max(0, width)),
                "height",
                Numbers.place(height));
    }

    private void path(String cssClass, PathData data) {
        if (!data.isEmpty()) {
            svg.empty("path", "class", cssClass, "d", data.toString());
        }
    }
}
