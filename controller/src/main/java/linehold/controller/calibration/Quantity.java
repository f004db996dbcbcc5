package linehold.controller.calibration;

import java.util.Locale;

/**
 * What a calibration value measures. Values are kept in the SI unit; {@link #text} speaks the unit that people type and
 * read.
 */
public enum Quantity {
    /** rad/s; read as rpm. */
    SPEED("rad/s", "rpm", 60 / (2 * Math.PI)),
    /** rad/s²; read as rpm/s. */
    ANGULAR_ACCELERATION("rad/s²", "rpm/s", 60 / (2 * Math.PI)),
    /** Pa gauge; read as bar. */
    PRESSURE("Pa", "bar", 1e-5),
    /** s. */
    TIME("s", "s", 1),
    /** N·m. */
    TORQUE("N·m", "N·m", 1),
    /** N·m/Pa; read as N·m/bar. */
    TORQUE_PER_PRESSURE("N·m/Pa", "N·m/bar", 1e5),
    /** V. */
    VOLTAGE("V", "V", 1),
    /** A. */
    CURRENT("A", "A", 1),
    /** A whole number. */
    COUNT("", "", 1),
    /** A plain number. */
    RATIO("", "", 1),
    /** 1 for yes, 0 for no. */
    FLAG("", "", 1);

    private final String siUnit;
    private final String shownUnit;
    private final double shownPerSi;

    Quantity(String siUnit, String shownUnit, double shownPerSi) {
        this.siUnit = siUnit;
        this.shownUnit = shownUnit;
        this.shownPerSi = shownPerSi;
    }

    /** Unit of the value as kept; empty for plain numbers. */
    public String siUnit() {
        return siUnit;
    }

    /** Unit of {@link #text}; empty for plain numbers. */
    public String shownUnit() {
        return shownUnit;
    }

    /** The SI value for people, for example {@code 500 rpm}: six significant digits, no trailing zeros. */
    public String text(double siValue) {
        if (this == FLAG && (siValue == 0 || siValue == 1)) {
            return siValue == 1 ? "yes" : "no";
        }
        String number = String.format(Locale.ROOT, "%.6g", siValue * shownPerSi);
        if (number.indexOf('.') >= 0 && number.indexOf('e') < 0) {
            number = number.replaceAll("0+$", "").replaceAll("\\.$", "");
        }
        return shownUnit.isEmpty() ? number : number + " " + shownUnit;
    }
}
