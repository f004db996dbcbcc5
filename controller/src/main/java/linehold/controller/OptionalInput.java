package linehold.controller;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;

/** The inputs that a car may lack (LH-TK-2). */
public enum OptionalInput {
    PRESSURE_SENDER(Key.SENDER_FITTED),
    STANDBY_RELAY(Key.STANDBY_RELAY_FITTED),
    PUMP_CURRENT(Key.PUMP_CURRENT_FITTED),
    OIL_TEMPERATURE(Key.OIL_TEMPERATURE_FITTED),
    RANGE(Key.RANGE_FITTED),
    BRAKE(Key.BRAKE_FITTED),
    TORQUE_REQUEST(Key.TORQUE_REQUEST_FITTED);

    private final Key fitted;

    OptionalInput(Key fitted) {
        this.fitted = fitted;
    }

    /** The calibration flag that says whether it is there. */
    public Key fitted() {
        return fitted;
    }

    /** This input's bit in {@link Outputs#absentInputs}. */
    public int bit() {
        return 1 << ordinal();
    }

    /** All inputs that a calibration says are absent, as bits. */
    public static int absentBits(Calibration calibration) {
        int bits = 0;
        for (OptionalInput input : values()) {
            if (!calibration.is(input.fitted)) {
                bits |= input.bit();
            }
        }
        return bits;
    }
}
