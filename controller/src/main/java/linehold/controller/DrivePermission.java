package linehold.controller;

/** What the controller allows the motor to do, from most to least. */
public enum DrivePermission {
    /** Any torque the driver asks for. */
    GRANTED,
    /** At most {@link Outputs#torqueLimitNm}. */
    REDUCED,
    /** No torque at all: the clutches cannot carry any. */
    WITHHELD
}
