package linehold.simulator.run;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.util.List;
import linehold.controller.Range;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.build.InputException;
import linehold.simulator.circuit.Plant;
import linehold.simulator.electrics.Relay;

/**
 * The circuit alone under a given trace: range D, relay delays, no bounce. Numbers are linear between rows; the 0/1
 * columns hold until the next row; the contact equals the coil in the first row.
 */
public final class OpenLoop {
    private static final List<String> COLUMNS =
            List.of("time_s", "shaft_rpm", "coil", "low_band", "high_clutch", "oil_c", "bus_v_open");
    private static final int OIL = COLUMNS.indexOf("oil_c");
    private static final double RAD_PER_S_PER_RPM = Math.PI / 30;
    /** Outside this no viscosity equation means anything. */
    private static final double COLDEST_OIL_C = -60;

    private static final double HOTTEST_OIL_C = 200;
    /** Output times count as equal to a row's time within this part of their spacing. */
    private static final double SAME_INSTANT = 1e-9;

    /** State at time 0: Pa, rad/s, m³, m³. */
    public record Initial(double pressurePa, double pumpRadPerS, double lowBandM3, double highClutchM3) {}

    private record Row(
            double timeS, double shaftRpm, boolean coil, boolean low, boolean high, double oilC, double busV) {}

    private final Build build;
    private final Initial initial;
    private final double everyS;

    /** @param everyS spacing of the output rows, s, above 0 */
    public OpenLoop(Build build, Initial initial, double everyS) {
        this.build = build;
        this.initial = initial;
        this.everyS = everyS;
    }

    /**
     * Runs the trace to its last row.
     *
     * @param name how error messages call the trace
     * @throws InputException with name, row, column, what was found and what was expected
     */
    public void run(String name, Reader trace, Writer out) throws IOException {
        try (CsvReader<NamedCsvRecord> csv = CsvReader.builder().ofNamedCsvRecord(trace)) {
            run(name, csv, out);
        } catch (CsvParseException e) {
            throw new InputException(name + ": found no proper CSV (" + e.getMessage() + ")", e);
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private void run(String name, CsvReader<NamedCsvRecord> csv, Writer out) throws IOException {
        out.write("time_s,line_pressure_pa,pump_speed_rad_s,pump_current_a,pump_flow_m3_s,internal_flow_m3_s,"
                + "low_band_volume_m3,high_clutch_volume_m3\n");
        Plant plant = null;
        Row row = null;
        int rows = 0;
        long written = 0;
        for (NamedCsvRecord fields : csv) {
            Row next = row(name, fields);
            rows++;
            if (row == null) {
                if (next.timeS != 0) {
                    throw wrong(name, fields, "time_s", "0 in the first row");
                }
                plant = begin(next);
            } else {
                if (!(next.timeS > row.timeS)) {
                    throw wrong(name, fields, "time_s", "more than the " + shortest(row.timeS) + " of the row before");
                }
                apply(plant, row, next);
                written = write(plant, out, written, row, next);
            }
            row = next;
        }
        if (rows < 2) {
            throw new InputException(
                    name + ": found " + (rows == 0 ? "no rows" : "one row") + ", expected at least two");
        }
        if (Math.abs(written * everyS - row.timeS) <= SAME_INSTANT * everyS) {
            line(plant, out, written * everyS);
        }
    }

    private Plant begin(Row first) {
        Plant plant = new Plant(build, first.oilC, false, first.coil);
        plant.setRange(Range.DRIVE);
        plant.start(initial.pressurePa, initial.pumpRadPerS, new double[] {initial.lowBandM3, initial.highClutchM3, 0});
        return plant;
    }

    private static void apply(Plant plant, Row row, Row next) {
        double length = next.timeS - row.timeS;
        plant.setShaft(row.shaftRpm * RAD_PER_S_PER_RPM, (next.shaftRpm - row.shaftRpm) * RAD_PER_S_PER_RPM / length);
        plant.setBus(row.busV, (next.busV - row.busV) / length);
        plant.setOil(row.oilC, (next.oilC - row.oilC) / length);
        plant.command(Element.LOW_BAND, row.low);
        plant.command(Element.HIGH_CLUTCH, row.high);
        plant.ask(Relay.MAIN, row.coil);
    }

    /** Writes the output rows that fall on [row, next), and the last one of all. */
    private long write(Plant plant, Writer out, long written, Row row, Row next) throws IOException {
        long i = written;
        for (; i * everyS < next.timeS - SAME_INSTANT * everyS; i++) {
            plant.advance(Math.max(row.timeS, i * everyS), next.timeS);
            line(plant, out, i * everyS);
        }
        plant.advance(next.timeS, next.timeS);
        return i;
    }

    private static void line(Plant plant, Writer out, double timeS) throws IOException {
        double[] values = {
            plant.linePressurePa(),
            plant.pumpRadPerS(),
            plant.pumpCurrentAmps(),
            plant.electricFlowM3PerS(),
            plant.internalFlowM3PerS(),
            plant.elementVolumeM3(Element.LOW_BAND),
            plant.elementVolumeM3(Element.HIGH_CLUTCH)
        };
        // 3·0.1 is to read 0.3
        StringBuilder text = new StringBuilder(shortest(Math.rint(timeS * 1e9) / 1e9));
        for (double value : values) {
            text.append(',').append(shortest(value));
        }
        out.write(text.append('\n').toString());
    }

    private static String shortest(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e9
                ? Long.toString((long) value)
                : Double.toString(value);
    }

    private static Row row(String name, NamedCsvRecord fields) {
        double[] numbers = new double[COLUMNS.size()];
        for (int i = 0; i < numbers.length; i++) {
            String column = COLUMNS.get(i);
            String text = fields.findField(column)
                    .orElseThrow(() -> new InputException(name + ": found no column '" + column
                            + "', expected the columns " + String.join(", ", COLUMNS)));
            boolean flag = i >= 2 && i <= 4;
            String expected = flag ? "0 or 1" : "a finite number";
            try {
                numbers[i] = Double.parseDouble(text.strip());
            } catch (NumberFormatException e) {
                throw wrong(name, fields, column, expected);
            }
            if (!Double.isFinite(numbers[i]) || flag && numbers[i] != 0 && numbers[i] != 1) {
                throw wrong(name, fields, column, expected);
            }
        }
        if (numbers[OIL] < COLDEST_OIL_C || numbers[OIL] > HOTTEST_OIL_C) {
            throw wrong(name, fields, "oil_c", "a temperature from -60 to 200 °C");
        }
        return new Row(
                numbers[0], numbers[1], numbers[2] == 1, numbers[3] == 1, numbers[4] == 1, numbers[5], numbers[6]);
    }

    private static InputException wrong(String name, NamedCsvRecord fields, String column, String expected) {
        return new InputException(name + ": row " + fields.getStartingLineNumber() + ": " + column + ": found '"
                + fields.getField(column) + "', expected " + expected);
    }
}
