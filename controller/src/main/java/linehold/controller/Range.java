package linehold.controller;

/** The range the driver has selected at the shift lever. */
public enum Range {
    PARK,
    REVERSE,
    NEUTRAL,
    DRIVE
}
