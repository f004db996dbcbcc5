package linehold.rig.adapter.web;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.tick.TickField;
import linehold.rig.loop.TickRow;

/**
 * Some ticks as one JSON object of columns, SI: {@code t} s since the rig's first tick, {@code p} line pressure, {@code n}
 * shaft speed, and so on. What is not known is null.
 */
final class LiveBatch {
    private static final long STEPS_PER_S = 10_000;
    private static final int STEP_DIGITS = 4;

    private record Column(String name, int index, double scale) {}

    private static final List<Column> COLUMNS = List.of(
            new Column("late", TickRow.LATE_NS, 1e-9),
            new Column("rig", TickRow.RIG_FAULTS, 1),
            column("p", TickField.LINE_PRESSURE_PA),
            column("n", TickField.SHAFT_SPEED_RAD_S),
            column("state", TickField.STATE),
            column("reason", TickField.REASON),
            column("drive", TickField.PERMISSION),
            column("limit", TickField.TORQUE_LIMIT_NM),
            column("wanted", TickField.PUMP_WANTED),
            column("main", TickField.MAIN_RELAY_COIL),
            column("standby", TickField.STANDBY_RELAY_COIL),
            column("mainV", TickField.MAIN_CONTACT_V),
            column("standbyV", TickField.STANDBY_CONTACT_V),
            column("amps", TickField.PUMP_CURRENT_A),
            column("bus", TickField.BUS_V),
            column("oil", TickField.OIL_C),
            column("key", TickField.KEY_ON),
            column("range", TickField.SELECTED_RANGE),
            column("codes", TickField.ACTIVE_CODES),
            column("stored", TickField.STORED_CODES));

    private final List<double[]> rows = new ArrayList<>();
    private double startNs = Double.NaN;
    private double lastS;

    private static Column column(String name, TickField field) {
        return new Column(name, TickRow.indexOf(field), 1);
    }

    void add(double[] row) {
        if (Double.isNaN(startNs)) {
            startNs = row[TickRow.NOW_NS];
        }
        rows.add(row.clone());
        lastS = (row[TickRow.NOW_NS] - startNs) * 1e-9;
    }

    boolean isEmpty() {
        return rows.isEmpty();
    }

    /** Time of the last tick, s since the first. */
    double lastS() {
        return lastS;
    }

    /** The ticks since the last call. */
    String takeJson() {
        StringBuilder json = new StringBuilder("{\"t\":[");
        for (double[] row : rows) {
            appendTime(json, row[TickRow.NOW_NS] - startNs);
        }
        end(json);
        for (Column column : COLUMNS) {
            json.append(",\"").append(column.name).append("\":[");
            for (double[] row : rows) {
                append(json, row[column.index] * column.scale);
            }
            end(json);
        }
        rows.clear();
        return json.append('}').toString();
    }

    /** To 0.1 ms however long the rig has run. */
    private static void appendTime(StringBuilder json, double ns) {
        long steps = Math.round(ns * 1e-9 * STEPS_PER_S);
        json.append(steps / STEPS_PER_S).append('.');
        json.append(STEPS_PER_S + steps % STEPS_PER_S).deleteCharAt(json.length() - STEP_DIGITS - 1);
        json.append(',');
    }

    /** Six digits are more than a screen or a sender shows; whole numbers, such as bits, keep all of theirs. */
    private static void append(StringBuilder json, double value) {
        if (!Double.isFinite(value)) {
            json.append("null");
        } else if (value == Math.rint(value) && Math.abs(value) < 1L << 53) {
            json.append((long) value);
        } else {
            double step = Math.pow(10, Math.floor(Math.log10(Math.abs(value))) - 5);
            json.append((float) (Math.rint(value / step) * step));
        }
        json.append(',');
    }

    private static void end(StringBuilder json) {
        json.setCharAt(json.length() - 1, ']');
    }
}
