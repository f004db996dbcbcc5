package linehold.controller.calibration;

/** The controller's calibration, validated; see {@code Key} for each value. */
public final class Calibration {}
