package linehold.simulator.drive;

import java.util.Locale;
import linehold.simulator.build.Quantity;

/**
 * What a column of a log can hold. Each number has the unit of our own format and the bounds outside which a cell is
 * taken for nonsense rather than for a car.
 */
enum LogField {
    TIME("time_s", Quantity.TIME, "s", Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY),
    MOTOR_SPEED("motor_speed_rpm", Quantity.ROTATION, "rpm", -30_000, 30_000),
    ROAD_SPEED("road_speed_km_h", Quantity.ROAD_SPEED, "km/h", -400, 400),
    MOTOR_TORQUE("motor_torque_nm", Quantity.TORQUE, "N.m", -5_000, 5_000),
    RANGE("range", "P, R, N or D"),
    GEAR("gear", "N, 1, 2 or R"),
    OIL_TEMPERATURE("oil_c", Quantity.TEMPERATURE, "°C", -60, 250),
    BUS_VOLTAGE("bus_v", Quantity.VOLTAGE, "V", 0, 60),
    BRAKE("brake", "0 or 1"),
    KEY("key", "0 or 1");

    static final int COUNT = values().length;

    private final String ownColumn;
    private final Quantity quantity;
    private final String ownUnit;
    private final double least;
    private final double most;
    private final String expectedWord;

    LogField(String ownColumn, Quantity quantity, String ownUnit, double least, double most) {
        this(ownColumn, quantity, ownUnit, least, most, null);
    }

    LogField(String ownColumn, String expectedWord) {
        this(ownColumn, null, null, 0, 0, expectedWord);
    }

    LogField(String ownColumn, Quantity quantity, String ownUnit, double least, double most, String expectedWord) {
        this.ownColumn = ownColumn;
        this.quantity = quantity;
        this.ownUnit = ownUnit;
        this.least = least;
        this.most = most;
        this.expectedWord = expectedWord;
    }

    /** The key in a mapping file: {@code motor-speed}. */
    String key() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The column name in our own format. */
    String ownColumn() {
        return ownColumn;
    }

    /** The quantity of a number; null where the column holds words. */
    Quantity quantity() {
        return quantity;
    }

    /** The unit label of our own format; null where the column holds words. */
    String ownUnit() {
        return ownUnit;
    }

    boolean isWord() {
        return quantity == null;
    }

    /** Smallest sensible value in the unit of our own format. */
    double least() {
        return least;
    }

    /** Largest sensible value in the unit of our own format. */
    double most() {
        return most;
    }

    /** The words a cell may hold, for a message. */
    String expectedWord() {
        return expectedWord;
    }
}
