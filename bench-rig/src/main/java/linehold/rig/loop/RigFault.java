package linehold.rig.loop;

/**
 * What is wrong with the rig itself, beside what the controller finds wrong with the car. Each is a bit of a tick's row;
 * while one is set the control loop goes on.
 */
public enum RigFault {
    PICKUP_FAILED("pickup line does not answer"),
    PRESSURE_SENDER_FAILED("pressure sender cannot be read"),
    SENDER_SUPPLY_FAILED("supply of the pressure sender cannot be read"),
    MAIN_CONTACT_FAILED("readback of the main relay cannot be read"),
    STANDBY_CONTACT_FAILED("readback of the standby relay cannot be read"),
    PUMP_CURRENT_FAILED("pump current cannot be read"),
    BUS_FAILED("bus voltage cannot be read"),
    OIL_TEMPERATURE_FAILED("oil temperature cannot be read"),
    KEY_FAILED("key line does not answer; the last position holds"),
    BRAKE_FAILED("brake line does not answer; taken as not applied"),
    RANGE_FAILED("range cannot be read"),
    TORQUE_REQUEST_FAILED("torque request cannot be read"),
    MAIN_COIL_FAILED("line of the main relay's coil does not answer"),
    STANDBY_COIL_FAILED("line of the standby relay's coil does not answer"),
    PERMISSION_FAILED("line of the drive permission does not answer"),
    LAMP_FAILED("line of the warning lamp does not answer"),
    BUZZER_FAILED("line of the buzzer does not answer"),
    EDGES_LOST("edges of the pickup have been missed"),
    RECORDING_STOPPED("recording has stopped: the store is full or cannot be written"),
    TELEMETRY_OFFLINE("telemetry has no broker"),
    CODES_NOT_KEPT("stored trouble codes cannot be kept over a loss of power");

    private final String text;

    RigFault(String text) {
        this.text = text;
    }

    /** One bit of its own. */
    public long bit() {
        return 1L << ordinal();
    }

    /** What has happened, for people. */
    public String text() {
        return text;
    }
}
