package linehold.simulator.size;

import java.math.BigDecimal;
import linehold.simulator.build.Display;
import linehold.simulator.build.Quantity;
import linehold.simulator.build.Unit;
import linehold.simulator.build.UnitSystem;

/** How a number of the sizing sheet is shown: its unit in each unit system, and how many decimals. */
public enum Measure {
    PRESSURE("Pa", of(Quantity.PRESSURE, "bar", 2), of(Quantity.PRESSURE, "psi", 1)),
    STRESS("Pa", of(Quantity.PRESSURE, "MPa", 1), of(Quantity.PRESSURE, "psi", 0)),
    FLOW("m3/s", of(Quantity.FLOW, "L/min", 2), of(Quantity.FLOW, "gal/min", 2)),
    SPEED("rad/s", of(Quantity.ROTATION, "rpm", 0)),
    VELOCITY("m/s", of(Quantity.ROAD_SPEED, "m/s", 2), own("ft/s", "0.3048", 2)),
    LENGTH("m", of(Quantity.LENGTH, "mm", 1), of(Quantity.LENGTH, "in", 3)),
    LONG("m", of(Quantity.LENGTH, "m", 2), own("ft", "0.3048", 2)),
    /** Shown in millimetres and in inches, whatever the unit system. */
    FIT("m", of(Quantity.LENGTH, "mm", 2)),
    AREA("m2", of(Quantity.AREA, "mm2", 3), of(Quantity.AREA, "in2", 5)),
    VOLUME("m3", of(Quantity.VOLUME, "L", 2), of(Quantity.VOLUME, "gal", 2)),
    DISPLACEMENT("m3/rev", of(Quantity.DISPLACEMENT, "cm3/rev", 2), of(Quantity.DISPLACEMENT, "in3/rev", 4)),
    TEMPERATURE("°C", of(Quantity.TEMPERATURE, "°C", 0), of(Quantity.TEMPERATURE, "°F", 0)),
    WARMING(
            "K/s",
            own("K/h", "0.000277777777777777777777777777777778", 0),
            own("°F/h", "0.000154320987654320987654320988", 0)),
    VISCOSITY("Pa.s", of(Quantity.DYNAMIC_VISCOSITY, "mPa.s", 2)),
    DENSITY("kg/m3", of(Quantity.DENSITY, "kg/m3", 0)),
    TORQUE("N.m", of(Quantity.TORQUE, "N.m", 0), of(Quantity.TORQUE, "lbf.ft", 0)),
    SMALL_TORQUE("N.m", of(Quantity.TORQUE, "N.m", 2), of(Quantity.TORQUE, "lbf.in", 1)),
    MASS("kg", of(Quantity.MASS, "kg", 0), of(Quantity.MASS, "lb", 0)),
    CURRENT("A", of(Quantity.CURRENT, "A", 1)),
    VOLTAGE("V", of(Quantity.VOLTAGE, "V", 2)),
    RESISTANCE("ohm", of(Quantity.RESISTANCE, "mohm", 1)),
    CURRENT_DENSITY("A/m2", own("A/mm2", "1e6", 1)),
    POWER("W", own("W", "1", 0)),
    ENERGY("J", of(Quantity.ENERGY, "Wh", 0)),
    TIME("s", of(Quantity.TIME, "s", 1)),
    SHORT_TIME("s", of(Quantity.TIME, "ms", 0)),
    SHARE("1", of(Quantity.RATIO, "%", 1)),
    NUMBER("1", own("", "1", 2)),
    FACTOR("1", own("", "1", 4)),
    COUNT("1", own("", "1", 0));

    private final String siUnit;
    private final Display.Scale metric;
    private final Display.Scale us;

    Measure(String siUnit, Display.Scale everywhere) {
        this(siUnit, everywhere, everywhere);
    }

    Measure(String siUnit, Display.Scale metric, Display.Scale us) {
        this.siUnit = siUnit;
        this.metric = metric;
        this.us = us;
    }

    private static Display.Scale of(Quantity quantity, String label, int decimals) {
        return new Display.Scale(quantity.unit(label).orElseThrow(), decimals);
    }

    private static Display.Scale own(String label, String factor, int decimals) {
        return new Display.Scale(new Unit(label, new BigDecimal(factor), BigDecimal.ZERO), decimals);
    }

    /** Unit of the value as computed and as it stands in JSON. */
    public String siUnit() {
        return siUnit;
    }

    private Display.Scale scale(UnitSystem units) {
        return switch (units) {
            case METRIC -> metric;
            case US -> us;
        };
    }

    /** Number and unit, for a reader. */
    public String text(double si, UnitSystem units) {
        if (this == FIT) {
            return of(Quantity.LENGTH, "mm", 2).text(si) + " ("
                    + of(Quantity.LENGTH, "in", 3).text(si) + ")";
        }
        if (Double.isInfinite(si)) {
            return si > 0 ? "never" : "–";
        }
        return scale(units).text(si).strip();
    }
}
