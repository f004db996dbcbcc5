package linehold.simulator.run;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.file.Path;
import java.util.function.Consumer;
import linehold.controller.tick.TickField;
import linehold.simulator.output.WholeFile;

/**
 * Writes a run tick by tick: the true state of the car, then everything the controller saw and decided. The names of the
 * columns end in their unit, SI.
 */
public final class RunCsv implements TickListener {
    private static final String TRUE_STATE = "time_s,true_line_pressure_pa,true_lowest_pressure_pa,"
            + "true_shaft_speed_rad_s,true_motor_torque_nm,true_gear,true_engagement,true_element_pressure_pa,"
            + "true_pump_speed_rad_s,true_contact_closed";

    private final Writer out;
    private final StringBuilder line = new StringBuilder();

    private RunCsv(Writer out) throws IOException {
        this.out = out;
        out.write(TRUE_STATE);
        for (TickField field : TickField.values()) {
            out.write("," + field.columnName());
        }
        out.write('\n');
    }

    /**
     * Writes one run to a file.
     *
     * @param run makes the run while the listener it is given looks on
     * @throws linehold.simulator.build.InputException where the file cannot be written
     */
    public static void write(Path file, Consumer<TickListener> run) {
        try {
            WholeFile.write(file, out -> run.accept(new RunCsv(out)));
        } catch (IOException e) {
            throw new UncheckedIOException(file.toString(), e);
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
            throw new UncheckedIOException(e);
        }
        return true;
    }
}
