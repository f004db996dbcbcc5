package linehold.simulator.run;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import linehold.controller.tick.TickField;
import linehold.simulator.build.InputException;

/**
 * Writes a run tick by tick: the true state of the car, then everything the controller saw and decided. The names of the
 * columns end in their unit, SI.
 */
public final class RunCsv implements TickListener, AutoCloseable {
    private static final String TRUE_STATE = "time_s,true_line_pressure_pa,true_lowest_pressure_pa,"
            + "true_shaft_speed_rad_s,true_motor_torque_nm,true_gear,true_engagement,true_element_pressure_pa,"
            + "true_pump_speed_rad_s,true_contact_closed";

    private final Path file;
    private final BufferedWriter out;
    private final StringBuilder line = new StringBuilder();

    public RunCsv(Path file) {
        this.file = file;
        try {
            out = Files.newBufferedWriter(file, StandardCharsets.UTF_8);
            out.write(TRUE_STATE);
            for (TickField field : TickField.values()) {
                out.write("," + field.columnName());
            }
            out.write('\n');
        } catch (IOException e) {
            throw new InputException(file + ": found no way to write it, expected a file in a folder with room", e);
        }
    }

    @Override
    public boolean tick(Moment moment) {
        line.setLength(0);
        line.append(moment.timeS);
        for (double value :
                new double[] {moment.linePressurePa, moment.lowestPressurePa, moment.shaftRadPerS, moment.motorTorqueNm
                }) {
            line.append(',').append(value);
        }
        line.append(',').append(moment.gear).append(',').append(moment.engagement);
        line.append(',').append(moment.elementPressurePa);
        line.append(',').append(moment.pumpRadPerS);
        line.append(',').append(moment.contactClosed ? 1 : 0);
        for (TickField field : TickField.values()) {
            line.append(',').append(field.text(moment.inputs, moment.outputs));
        }
        try {
            out.write(line.append('\n').toString());
        } catch (IOException e) {
            throw new UncheckedIOException(file.toString(), e);
        }
        return true;
    }

    @Override
    public void close() {
        try {
            out.close();
        } catch (IOException e) {
            throw new UncheckedIOException(file.toString(), e);
        }
    }
}
