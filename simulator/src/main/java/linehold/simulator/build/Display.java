package linehold.simulator.build;

import java.util.Locale;

/**
 * Numbers as a person reads them, in one unit system: {@code 4.00 bar} or {@code 58.0 psi}. Text is the same in every
 * locale. A value that does not exist (NaN) reads {@code –}.
 */
public final class Display {

    /**
     * One axis or column: SI values in, numbers in the display unit out.
     *
     * @param unit the display unit
     * @param decimals digits after the point
     */
    public record Scale(Unit unit, int decimals) {
        /** The unit as it is printed: {@code lbf·ft}. */
        public String label() {
            return unit.printed();
        }

        /** The value in the display unit, for an axis. */
        public double value(double si) {
            return unit.fromSi(si);
        }

        /** The number alone, for a column whose head has the unit. */
        public String number(double si) {
            if (Double.isNaN(si)) {
                return "–";
            }
            if (Double.isInfinite(si)) {
                return si > 0 ? "∞" : "-∞";
            }
            String text = String.format(Locale.ROOT, "%." + decimals + "f", unit.fromSi(si));
            // a tiny negative number must not read "-0.00"
            return text.startsWith("-") && text.chars().allMatch(c -> "-0.".indexOf(c) >= 0) ? text.substring(1) : text;
        }

        /** Number and unit: {@code 4.00 bar}. */
        public String text(double si) {
            return Double.isNaN(si) ? "–" : number(si) + " " + label();
        }
    }

    private final UnitSystem units;

    public Display(UnitSystem units) {
        this.units = units;
    }

    public UnitSystem units() {
        return units;
    }

    private Scale scale(Quantity quantity, String metric, int metricDecimals, String us, int usDecimals) {
        return switch (units) {
            case METRIC -> new Scale(quantity.unit(metric).orElseThrow(), metricDecimals);
            case US -> new Scale(quantity.unit(us).orElseThrow(), usDecimals);
        };
    }

    private Scale scale(Quantity quantity, String label, int decimals) {
        return scale(quantity, label, decimals, label, decimals);
    }

    /** Pa → bar or psi. */
    public Scale pressureScale() {
        return scale(Quantity.PRESSURE, "bar", 2, "psi", 1);
    }

    /** m³/s → L/min or gal/min. */
    public Scale flowScale() {
        return scale(Quantity.FLOW, "L/min", 2, "gal/min", 2);
    }

    /** N·m → N·m or lbf·ft. */
    public Scale torqueScale() {
        return scale(Quantity.TORQUE, "N.m", 0, "lbf.ft", 0);
    }

    /** °C → °C or °F. */
    public Scale temperatureScale() {
        return scale(Quantity.TEMPERATURE, "°C", 0, "°F", 0);
    }

    /** rad/s → rpm. */
    public Scale speedScale() {
        return scale(Quantity.ROTATION, "rpm", 0);
    }

    /** rad/s² → rpm/s. */
    public Scale accelerationScale() {
        return scale(Quantity.ANGULAR_ACCELERATION, "rpm/s", 0);
    }

    /** m/s → km/h or mph. */
    public Scale roadSpeedScale() {
        return scale(Quantity.ROAD_SPEED, "km/h", 0, "mph", 0);
    }

    /** m³ → cm³ or in³. */
    public Scale volumeScale() {
        return scale(Quantity.VOLUME, "cm3", 1, "in3", 2);
    }

    /** s → s. */
    public Scale timeScale() {
        return scale(Quantity.TIME, "s", 2);
    }

    /** s → ms. */
    public Scale shortTimeScale() {
        return scale(Quantity.TIME, "ms", 0);
    }

    /** J → Wh. */
    public Scale energyScale() {
        return scale(Quantity.ENERGY, "Wh", 1);
    }

    public String pressure(double pa) {
        return pressureScale().text(pa);
    }

    public String flow(double m3PerS) {
        return flowScale().text(m3PerS);
    }

    public String torque(double nm) {
        return torqueScale().text(nm);
    }

    public String temperature(double celsius) {
        return temperatureScale().text(celsius);
    }

    public String speed(double radPerS) {
        return speedScale().text(radPerS);
    }

    public String acceleration(double radPerS2) {
        return accelerationScale().text(radPerS2);
    }

    public String roadSpeed(double mPerS) {
        return roadSpeedScale().text(mPerS);
    }

    public String volume(double m3) {
        return volumeScale().text(m3);
    }

    public String time(double s) {
        return timeScale().text(s);
    }

    public String shortTime(double s) {
        return shortTimeScale().text(s);
    }

    public String energy(double j) {
        return energyScale().text(j);
    }
}
