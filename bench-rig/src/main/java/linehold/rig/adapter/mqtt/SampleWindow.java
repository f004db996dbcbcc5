package linehold.rig.adapter.mqtt;

import linehold.controller.tick.TickField;
import linehold.rig.loop.TickRow;

/** What the ticks of one sample had in common. */
final class SampleWindow {
    private long ticks;
    private double linePressureMinPa;
    private double linePressureMaxPa;
    private double lateMaxNs;

    SampleWindow() {
        clear();
    }

    void clear() {
        ticks = 0;
        linePressureMinPa = Double.NaN;
        linePressureMaxPa = Double.NaN;
        lateMaxNs = 0;
    }

    void add(double[] row) {
        ticks++;
        lateMaxNs = Math.max(lateMaxNs, row[TickRow.LATE_NS]);
        double linePressurePa = Payloads.value(row, TickField.LINE_PRESSURE_PA);
        if (!Double.isNaN(linePressurePa)) {
            linePressureMinPa =
                    Double.isNaN(linePressureMinPa) ? linePressurePa : Math.min(linePressureMinPa, linePressurePa);
            linePressureMaxPa =
                    Double.isNaN(linePressureMaxPa) ? linePressurePa : Math.max(linePressureMaxPa, linePressurePa);
        }
    }

    long ticks() {
        return ticks;
    }

    /** Pa gauge; NaN where no tick knew it. */
    double linePressureMinPa() {
        return linePressureMinPa;
    }

    /** Pa gauge; NaN where no tick knew it. */
    double linePressureMaxPa() {
        return linePressureMaxPa;
    }

    double lateMaxNs() {
        return lateMaxNs;
    }
}
