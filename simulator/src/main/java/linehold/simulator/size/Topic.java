package linehold.simulator.size;

/** What a line of the sizing sheet is about, in the order of the sheet. */
public enum Topic {
    FLOW("Pump flow against leakage"),
    HOSE("Hose, suction line and check valve"),
    MOTOR("Pump motor"),
    WIRING("Cable, fuse and relay"),
    ELEMENTS("Band and clutches at the pressure held"),
    HEAT("Heat and energy of standing"),
    TORQUE_PATH("Torque path from motor to tyre"),
    SHAFT_FIT("Both shafts in one coupling");

    private final String title;

    Topic(String title) {
        this.title = title;
    }

    public String title() {
        return title;
    }
}
