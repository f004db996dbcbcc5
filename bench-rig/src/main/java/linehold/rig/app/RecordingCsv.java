package linehold.rig.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.tick.TickField;
import linehold.rig.adapter.store.RecordedField;
import linehold.rig.adapter.store.RecordedRows;
import linehold.rig.adapter.store.Recording;
import linehold.rig.loop.TickRow;
import linehold.simulator.build.InputException;
import linehold.simulator.output.WholeFile;

/** Writes a recording as CSV: as a drive that {@code linehold prove} reads, or every field of every tick. */
final class RecordingCsv {
    private static final double RPM_PER_RAD_S = 30 / Math.PI;

    private RecordingCsv() {}

    /** One row in, one line out. */
    private interface Line {
        void append(double[] row, RecordedRows at, StringBuilder line);
    }

    /**
     * Every field of every tick, as stored.
     *
     * @return rows written
     */
    static long writeTicks(Recording recording, Path file) {
        List<RecordedField> fields = recording.fields();
        StringBuilder head = new StringBuilder("tick,now_ns");
        for (RecordedField field : fields.subList(1, fields.size())) {
            head.append(',').append(field.name());
        }
        return write(recording, file, head.toString(), (row, at, line) -> {
            line.append(at.tick());
            for (int i = 0; i < fields.size(); i++) {
                line.append(',').append(fields.get(i).text(row[i]));
            }
        });
    }

    /**
     * A drive log in our own format (docs/drives.md). Columns of what the car lacks are left out, so that {@code prove}
     * derives them.
     *
     * @return rows written
     */
    static long writeDrive(Recording recording, Path file) {
        if (!recording.hasFieldsOfThisRelease()) {
            throw new InputException("the recording's rows are not those of this release (" + recording.describe()
                    + "): export it with --ticks, or with the release that made it");
        }
        Calibration calibration = recording.facts().calibration();
        List<String> names = new ArrayList<>(List.of("time_s", "motor_speed_rpm", "key", "bus_v"));
        boolean range = addIf(calibration, Key.RANGE_FITTED, "range", names);
        boolean torque = addIf(calibration, Key.TORQUE_REQUEST_FITTED, "motor_torque_nm", names);
        boolean brake = addIf(calibration, Key.BRAKE_FITTED, "brake", names);
        boolean oil = addIf(calibration, Key.OIL_TEMPERATURE_FITTED, "oil_c", names);
        double[] startNs = {Double.NaN};
        return write(recording, file, String.join(",", names), (row, at, line) -> {
            if (Double.isNaN(startNs[0])) {
                startNs[0] = row[TickRow.NOW_NS];
            }
            line.append((row[TickRow.NOW_NS] - startNs[0]) / 1e9);
            number(value(row, TickField.SHAFT_SPEED_RAD_S) * RPM_PER_RAD_S, line);
            number(value(row, TickField.KEY_ON), line);
            number(value(row, TickField.BUS_V), line);
            if (range) {
                String name = TickField.SELECTED_RANGE.text(value(row, TickField.SELECTED_RANGE));
                line.append(',').append(name, 0, Math.min(1, name.length()));
            }
            if (torque) {
                number(value(row, TickField.TORQUE_REQUEST_NM), line);
            }
            if (brake) {
                number(value(row, TickField.BRAKE_APPLIED), line);
            }
            if (oil) {
                number(value(row, TickField.OIL_C), line);
            }
        });
    }

    private static boolean addIf(Calibration calibration, Key fitted, String name, List<String> names) {
        if (calibration.is(fitted)) {
            names.add(name);
        }
        return calibration.is(fitted);
    }

    private static double value(double[] row, TickField field) {
        return row[TickRow.indexOf(field)];
    }

    /** A value that was absent is an empty cell. */
    private static void number(double value, StringBuilder line) {
        line.append(',');
        if (value == Math.rint(value) && Math.abs(value) < 1L << 53) {
            line.append((long) value);
        } else if (!Double.isNaN(value)) {
            line.append(value);
        }
    }

    private static long write(Recording recording, Path file, String head, Line content) {
        long[] count = {0};
        try (RecordedRows rows = recording.rows()) {
            WholeFile.write(file, out -> count[0] = writeRows(recording, rows, out, head, content));
        } catch (IOException e) {
            throw new UncheckedIOException(file.toString(), e);
        }
        return count[0];
    }

    private static long writeRows(Recording recording, RecordedRows rows, Writer out, String head, Line content)
            throws IOException {
        double[] row = new double[recording.fields().size()];
        StringBuilder line = new StringBuilder(head).append('\n');
        out.append(line);
        long count = 0;
        while (rows.next(row)) {
            line.setLength(0);
            content.append(row, rows, line);
            out.append(line.append('\n'));
            count++;
        }
        return count;
    }
}
