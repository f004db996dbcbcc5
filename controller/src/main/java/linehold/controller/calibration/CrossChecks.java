package linehold.controller.calibration;

/** Refuses a calibration that contradicts itself. Each check names the key to look at, its value and the other key. */
final class CrossChecks {
    /** Least window between switching on and off whatever the pickup can resolve, rad/s (LH-SW-3): 50 rpm. */
    private static final double LEAST_WINDOW_RAD_PER_S = 50 * Math.PI / 30;

    private final Calibration calibration;

    private CrossChecks(Calibration calibration) {
        this.calibration = calibration;
    }

    static void check(Calibration calibration) {
        CrossChecks checks = new CrossChecks(calibration);
        checks.speeds();
        checks.pressures();
        checks.sender();
        checks.times();
        checks.feed();
    }

    private void speeds() {
        checkWindow();
        atLeast(Key.SWITCH_ON_SPEED, Key.CARRY_SPEED);
        below(Key.STANDSTILL_SPEED, Key.SWITCH_ON_SPEED);
        double widestOff = value(Key.SWITCH_OFF_SPEED) + 2 * value(Key.SENDER_LOST_WIDENING);
        if (widestOff >= value(Key.HIGHEST_SHAFT_SPEED)) {
            throw contradiction(
                    Key.SWITCH_OFF_SPEED,
                    "must stay below",
                    Key.HIGHEST_SHAFT_SPEED,
                    " even when raised by twice " + Key.SENDER_LOST_WIDENING.yamlName());
        }
        if (value(Key.BRAKE_SWITCH_ON_SPEED) != 0) {
            atLeast(Key.BRAKE_SWITCH_ON_SPEED, Key.SWITCH_ON_SPEED);
        }
    }

    /**
     * LH-SW-3. Period measurement resolves n²·z/(60·f) rpm at n rpm, z pulses per revolution and a clock of f
     * (general knowledge of period counters): in rad/s, n²·z·Δt/2π with the resolution Δt of an edge's time stamp.
     */
    private void checkWindow() {
        double off = value(Key.SWITCH_OFF_SPEED);
        double resolution =
                off * off * value(Key.PULSES_PER_REVOLUTION) * value(Key.EDGE_TIME_RESOLUTION) / (2 * Math.PI);
        double window = Math.max(LEAST_WINDOW_RAD_PER_S, resolution);
        // A billionth of slack: 550 rpm typed over 500 rpm typed must pass whatever the rounding to rad/s does.
        if (off < (value(Key.SWITCH_ON_SPEED) + window) * (1 - 1e-9)) {
            throw contradiction(
                    Key.SWITCH_OFF_SPEED,
                    "must exceed by at least " + Quantity.SPEED.text(window),
                    Key.SWITCH_ON_SPEED,
                    "");
        }
    }

    private void pressures() {
        atLeast(Key.HAND_OVER_PRESSURE, Key.HOLD_PRESSURE);
        below(Key.HELP_PRESSURE, Key.HAND_OVER_PRESSURE);
        below(Key.HAND_OVER_PRESSURE, Key.SENDER_FULL_SCALE);
        below(Key.FIRST_TOUCH_PRESSURE, Key.HOLD_PRESSURE);
        below(Key.TOP_TOUCH_PRESSURE, Key.HOLD_PRESSURE);
        below(Key.REVERSE_TOUCH_PRESSURE, Key.HOLD_PRESSURE);
    }

    private void sender() {
        below(Key.SENDER_LEAST_FRACTION, Key.SENDER_ZERO_FRACTION);
        below(Key.SENDER_FULL_SCALE_FRACTION, Key.SENDER_MOST_FRACTION);
    }

    private void times() {
        if (value(Key.LATE_TICK_LIMIT) < 2 * value(Key.CONTROL_PERIOD)) {
            throw contradiction(Key.LATE_TICK_LIMIT, "must be at least twice", Key.CONTROL_PERIOD, "");
        }
        below(Key.CONTROL_PERIOD, Key.RELAY_READBACK_TIME);
    }

    private void feed() {
        below(Key.CONTACT_CLOSED_FRACTION, Key.CONTACT_WELDED_FRACTION);
        below(Key.PUMP_CURRENT_OPEN, Key.PUMP_CURRENT_DRY);
        below(Key.PUMP_CURRENT_DRY, Key.PUMP_CURRENT_STALLED);
    }

    private void atLeast(Key key, Key other) {
        if (value(key) < value(other)) {
            throw contradiction(key, "must be at least", other, "");
        }
    }

    private void below(Key key, Key other) {
        if (value(key) >= value(other)) {
            throw contradiction(key, "must be below", other, "");
        }
    }

    /** The value of a scalar, the largest of a curve. */
    private double value(Key key) {
        return calibration.at(key, Double.NaN);
    }

    private CalibrationException contradiction(Key key, String rule, Key other, String more) {
        return new CalibrationException(key, text(key) + " " + rule + " " + text(other) + more);
    }

    private String text(Key key) {
        return key.yamlName() + " (" + key.quantity().text(value(key)) + ")";
    }
}
