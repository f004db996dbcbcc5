package linehold.rig.board;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.simulator.build.InputException;

/** Whether a board can serve a car: what its calibration counts on is connected, and safe before any program runs. */
public final class BoardChecks {
    /**
     * Lines 0 to 8 are pulled up at reset, 9 to 27 down: "BCM2835 ARM Peripherals", section 6.2, table 6-31, column
     * "Pull"; the later chips of the class keep it (BCM2711 and RP1 peripherals documents). From memory.
     */
    private static final int LAST_PULLED_UP = 8;

    private BoardChecks() {}

    /**
     * Checks a board against the calibration of the car it is to serve.
     *
     * @param file how the message calls the board file
     * @throws InputException with one sentence
     */
    public static void check(String file, Board board, Calibration calibration) {
        need(file, board, calibration, Key.SENDER_FITTED, BoardFunction.PRESSURE_SENDER);
        need(file, board, calibration, Key.STANDBY_RELAY_FITTED, BoardFunction.STANDBY_COIL);
        need(file, board, calibration, Key.STANDBY_RELAY_FITTED, BoardFunction.STANDBY_CONTACT);
        need(file, board, calibration, Key.PUMP_CURRENT_FITTED, BoardFunction.PUMP_CURRENT);
        need(file, board, calibration, Key.OIL_TEMPERATURE_FITTED, BoardFunction.OIL_TEMPERATURE);
        need(file, board, calibration, Key.BRAKE_FITTED, BoardFunction.BRAKE);
        need(file, board, calibration, Key.RANGE_FITTED, BoardFunction.RANGE_PARK);
        need(file, board, calibration, Key.TORQUE_REQUEST_FITTED, BoardFunction.TORQUE_REQUEST);
        boolean normallyClosed = calibration.is(Key.NORMALLY_CLOSED_CONTACT);
        safeAtReset(file, board, BoardFunction.MAIN_COIL, !normallyClosed);
        safeAtReset(file, board, BoardFunction.STANDBY_COIL, false);
        safeAtReset(file, board, BoardFunction.PERMISSION_GRANTED, false);
        safeAtReset(file, board, BoardFunction.PERMISSION_REDUCED, false);
    }

    private static void need(String file, Board board, Calibration calibration, Key key, BoardFunction function) {
        if (calibration.is(key) && !board.has(function)) {
            throw new InputException(file + ": " + function.section() + ": missing, expected "
                    + function.kind().words() + ", because the build has " + key.yamlName());
        }
    }

    /** Between power-up and the first tick nobody drives the line: its pull at reset decides (LH-RL-6). */
    private static void safeAtReset(String file, Board board, BoardFunction function, boolean on) {
        board.output(function).ifPresent(output -> {
            boolean pulledUp = output.line() <= LAST_PULLED_UP;
            if (output.level(on) != pulledUp) {
                throw new InputException(file + ": " + function.section() + ".line: found '" + output.line()
                        + "', which is pulled " + (pulledUp ? "up" : "down")
                        + " at reset and so unsafe until the program runs, expected one of "
                        + (pulledUp ? "9 to 27" : "0 to 8") + ", or the other level in active");
            }
        });
    }
}
