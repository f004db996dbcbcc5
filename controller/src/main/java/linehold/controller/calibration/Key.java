package linehold.controller.calibration;

import static linehold.controller.calibration.Key.Source.FROM_BUILD;
import static linehold.controller.calibration.Key.Source.TYPED;
import static linehold.controller.calibration.Quantity.ANGULAR_ACCELERATION;
import static linehold.controller.calibration.Quantity.COUNT;
import static linehold.controller.calibration.Quantity.CURRENT;
import static linehold.controller.calibration.Quantity.FLAG;
import static linehold.controller.calibration.Quantity.PRESSURE;
import static linehold.controller.calibration.Quantity.RATIO;
import static linehold.controller.calibration.Quantity.SPEED;
import static linehold.controller.calibration.Quantity.TIME;
import static linehold.controller.calibration.Quantity.TORQUE;
import static linehold.controller.calibration.Quantity.TORQUE_PER_PRESSURE;
import static linehold.controller.calibration.Quantity.VOLTAGE;

/**
 * Every calibration value: what it is called in the build file, what it measures, its bounds, its default, and why.
 * Bounds and defaults are SI. One row a key; rows stay together, so this file may grow long.
 */
public enum Key {
    // Switch-over (LH-SW)
    SWITCH_ON_SPEED(
            TYPED,
            SPEED,
            rpm(50),
            rpm(5000),
            rpm(500),
            "Below this shaft speed the electric pump runs (LH-SW-1); 500 rpm is common practice."),
    SWITCH_OFF_SPEED(
            TYPED,
            SPEED,
            rpm(100),
            rpm(6000),
            rpm(600),
            "Above this shaft speed the internal pump may carry the line alone (LH-SW-2); 600 rpm is common practice."),
    SWITCH_OFF_CONFIRM_TIME(
            TYPED,
            TIME,
            0.02,
            5,
            0.3,
            "How long the speed must stay above it before hand-over (LH-SW-2, requirement)."),
    MINIMUM_RUN_TIME(
            TYPED, TIME, 0.5, 60, 2, "Once on, the electric pump runs at least this long (LH-SW-4, requirement)."),
    HAND_OVER_PRESSURE(
            TYPED,
            PRESSURE,
            bar(0.5),
            bar(30),
            bar(4.5),
            "Least line pressure for hand-over (LH-SW-2); assumed: half a bar above the default hold pressure."),
    HELP_PRESSURE(
            TYPED,
            PRESSURE,
            0,
            bar(30),
            bar(4.2),
            "Below it the electric pump helps at any speed (LH-SW-5); 0 turns this off; assumed: just above the default"
                    + " hold pressure."),
    FALLING_SPEED_PREDICTION(
            TYPED, FLAG, 0, 1, 1, "Whether a falling speed switches the pump on ahead of time (LH-SW-6, requirement)."),
    CARRY_SPEED(
            TYPED,
            SPEED,
            0,
            rpm(5000),
            new double[] {20, 60, 100, 120},
            new double[] {rpm(50), rpm(110), rpm(185), rpm(250)},
            "Lowest speed at which the internal pump alone holds pressure (LH-SW-6); the default is the demonstration"
                    + " circuit at 4 bar."),
    PUMP_LEAD_TIME(
            TYPED,
            TIME,
            0,
            2,
            new double[] {-20, 20, 60},
            new double[] {0.25, 0.12, 0.09},
            "Relay pull-in and spin-up until the electric pump carries the line (LH-SW-6); assumed, above the"
                    + " demonstration pump's 60 to 90 ms."),
    BRAKE_SWITCH_ON_SPEED(
            TYPED,
            SPEED,
            0,
            rpm(10000),
            rpm(1500),
            "With the brake applied the pump runs below this speed (LH-SW-7); 0 turns this off; assumed: a wheel locked"
                    + " on ice takes 80 ms from here to the hot carry speed."),
    RELAY_OPERATIONS_PER_MINUTE(
            TYPED,
            COUNT,
            4,
            120,
            20,
            "More relay operations in a minute and the pump stays on (LH-SW-8); assumed: spares the contact."),
    COOL_DOWN_TIME(TYPED, TIME, 1, 600, 60, "How long it then stays on (LH-SW-8); assumed."),
    PRIME_TIME(
            TYPED,
            TIME,
            0.2,
            60,
            new double[] {-20, 20},
            new double[] {3, 1.5},
            "How long PRIME lasts where no sender shows that pressure holds (LH-SW-9); assumed: more than twice the"
                    + " demonstration circuit's time from empty."),

    // Speed (LH-SP)
    PULSES_PER_REVOLUTION(FROM_BUILD, COUNT, 1, 120, 4, "Edges of the pickup in one turn of the shaft."),
    EDGE_TIME_RESOLUTION(
            TYPED,
            TIME,
            1e-8,
            1e-3,
            1e-4,
            "How finely an edge is stamped; sets the pickup's resolution for LH-SW-3; assumed for an edge stamped by an"
                    + " operating system."),
    HIGHEST_SHAFT_SPEED(
            TYPED,
            SPEED,
            rpm(1000),
            rpm(30000),
            rpm(10000),
            "Edges closer than this speed gives are no edges (LH-SP-2); assumed: above any motor speed of the car."),
    REJECTED_EDGES_PER_MINUTE(
            TYPED, COUNT, 1, 1000, 30, "More rejected edges in a minute raise a code (LH-SP-2); assumed."),
    HIGHEST_FALL_RATE(
            TYPED,
            ANGULAR_ACCELERATION,
            rpm(20000),
            rpm(1000000),
            rpm(150000),
            "A speed that falls faster is a lost pickup (LH-SP-3); computed: a wheel locked on ice with the motor behind"
                    + " it reaches about 15,000 rpm/s, a bare wheel would reach 124,900 rpm/s."),
    PICKUP_LOST_CONFIRM_TIME(
            TYPED,
            TIME,
            0.2,
            60,
            1,
            "How long pressure beyond the electric pump's reach must last without an edge (LH-SP-3); assumed: the stored"
                    + " oil of a line without accumulator is gone in 0.1 s; raise it with an accumulator."),
    ELECTRIC_PUMP_HIGHEST_PRESSURE(
            FROM_BUILD,
            PRESSURE,
            bar(1),
            bar(60),
            bar(8.5),
            "Relief of the electric pump: it cannot give more (LH-SP-3)."),
    STANDSTILL_SPEED(
            TYPED,
            SPEED,
            rpm(5),
            rpm(500),
            rpm(100),
            "Below this speed the shaft counts as standing (LH-PR-2, LH-SW-9); assumed: under 2 km/h in first gear."),
    STANDSTILL_CONFIRM_TIME(
            TYPED,
            TIME,
            0.05,
            10,
            0.5,
            "How long below it before standstill is confirmed (LH-SW-9, LH-PR-2); assumed."),
    LOST_PICKUP_RUN_ON_TIME(
            TYPED,
            TIME,
            1,
            3600,
            60,
            "After key-off with the pickup lost the pump runs on this long, for the car may still roll; assumed."),

    // Tick (LH-TK)
    CONTROL_PERIOD(FROM_BUILD, TIME, 0.001, 0.02, 0.005, "Time between two steps of the controller (LH-TK-1)."),
    LATE_TICK_LIMIT(
            TYPED,
            TIME,
            0.005,
            1,
            0.05,
            "A step later than this after the one before raises a code (LH-TK-4, requirement)."),

    // Relay (LH-RL)
    NORMALLY_CLOSED_CONTACT(
            TYPED,
            FLAG,
            0,
            1,
            0,
            "Whether the pump is wired through a normally closed contact, so that an energised coil means pump off"
                    + " (LH-RL-6)."),
    STANDBY_RELAY_FITTED(FROM_BUILD, FLAG, 0, 1, 0, "Whether a second relay can feed the electric pump."),
    RELAY_READBACK_TIME(
            TYPED,
            TIME,
            0.01,
            0.5,
            0.06,
            "How long after switching on there may be no voltage behind the contact (LH-RL-1, requirement)."),
    WELDED_CONFIRM_TIME(
            TYPED,
            TIME,
            0.1,
            10,
            0.5,
            "How long after switching off voltage may stay behind the contact (LH-RL-2); assumed: the coasting pump"
                    + " feeds its own voltage back for up to 0.3 s."),
    CONTACT_CLOSED_FRACTION(
            TYPED,
            RATIO,
            0.3,
            0.95,
            0.6,
            "Share of bus voltage behind the contact from which it counts as closed; assumed."),
    CONTACT_WELDED_FRACTION(
            TYPED,
            RATIO,
            0.5,
            0.99,
            0.9,
            "With every relay off, share of bus voltage behind the contacts from which one counts as welded; assumed: a"
                    + " pump that coasts soon feeds back less."),
    NOMINAL_BUS_VOLTAGE(
            TYPED, VOLTAGE, 9, 16, 12, "Stands in for the bus voltage while that is not measured; common practice."),
    SELF_TEST_RELEASE_TIME(
            TYPED,
            TIME,
            0.05,
            2,
            0.5,
            "How long at key-on voltage may stay behind the contacts with no relay on (LH-RL-5); assumed: a pump that"
                    + " coasts unloaded feeds back near bus voltage for up to 0.4 s."),

    // Pump current (LH-RL-4)
    PUMP_CURRENT_OPEN(
            FROM_BUILD,
            CURRENT,
            1e-5,
            100,
            0.3,
            "Up to this current, at nominal bus voltage, none flows (LH-RL-4): half of what dry friction alone takes."),
    PUMP_CURRENT_DRY(
            FROM_BUILD,
            CURRENT,
            1e-4,
            10_000,
            3,
            "Below this current the pump has no pressure to work against (LH-RL-4): friction and half the hold"
                    + " pressure."),
    PUMP_CURRENT_STALLED(
            FROM_BUILD,
            CURRENT,
            0.1,
            100_000,
            64,
            "From this current the pump stands still (LH-RL-4): 85 % of bus voltage over the resistance of motor, wire"
                    + " and contact."),
    PUMP_SPIN_UP_TIME(
            TYPED,
            TIME,
            0.05,
            10,
            new double[] {-20, 20},
            new double[] {1, 0.3},
            "How long after switching on inrush is not judged (LH-RL-4); assumed: far above the demonstration pump's 60"
                    + " to 90 ms."),
    PUMP_CURRENT_CONFIRM_TIME(
            TYPED, TIME, 0.05, 10, 0.3, "How long pump current must miss or exceed its band (LH-RL-4); assumed."),
    PUMP_DRY_CONFIRM_TIME(
            TYPED,
            TIME,
            0.5,
            60,
            3,
            "How long current and pressure must both be low before the pump counts as dry (LH-RL-4); assumed: longer than"
                    + " an element fills in warm oil."),
    PUMP_STALL_RETRIES(
            TYPED, COUNT, 0, 20, 3, "How often a stalled pump is tried again after a rest (LH-RL-4); assumed."),
    PUMP_STALL_REST_TIME(
            TYPED,
            TIME,
            0.1,
            60,
            2,
            "How long a stalled pump rests while the internal pump carries the line (LH-RL-4); assumed."),
    PUMP_EVIDENCE_TIME(
            TYPED,
            TIME,
            0.2,
            60,
            1,
            "How long pressure must hold at standstill to show the electric pump at work (LH-RL-1, LH-RL-4); assumed: as"
                    + " for the lost pickup; raise it with an accumulator."),

    // Supply (LH-EL)
    BUS_LOW_VOLTAGE(TYPED, VOLTAGE, 6, 12, 9, "Bus voltage below this raises a code (LH-EL-1, requirement)."),
    BUS_HIGH_VOLTAGE(TYPED, VOLTAGE, 13, 36, 16, "Bus voltage above this raises a code (LH-EL-1, requirement)."),
    BUS_CONFIRM_TIME(TYPED, TIME, 0, 10, 0.5, "How long the bus voltage must be out of bounds (LH-EL-1); assumed."),

    // Pressure (LH-PR)
    SENDER_FITTED(FROM_BUILD, FLAG, 0, 1, 1, "Whether a line pressure sender is fitted."),
    SENDER_FULL_SCALE(
            FROM_BUILD, PRESSURE, bar(2), bar(400), bar(20), "Line pressure at the sender's full-scale fraction."),
    SENDER_ZERO_FRACTION(
            FROM_BUILD,
            RATIO,
            0,
            0.4,
            0.1,
            "Share of its supply the sender gives at 0 Pa; common practice: 0.5 V of 5 V."),
    SENDER_FULL_SCALE_FRACTION(
            FROM_BUILD,
            RATIO,
            0.6,
            1,
            0.9,
            "Share of its supply the sender gives at full scale; common practice: 4.5 V of 5 V."),
    SENDER_LEAST_FRACTION(
            TYPED, RATIO, 0, 0.4, 0.05, "Below this share of its supply the sender is lost (LH-PR-1, requirement)."),
    SENDER_MOST_FRACTION(
            TYPED, RATIO, 0.6, 1, 0.95, "Above this share of its supply the sender is lost (LH-PR-1, requirement)."),
    SENDER_LOST_CONFIRM_TIME(TYPED, TIME, 0, 2, 0.05, "How long before the sender counts as lost (LH-PR-1); assumed."),
    SENDER_LOST_WIDENING(
            TYPED,
            SPEED,
            0,
            rpm(1000),
            rpm(100),
            "With the sender lost the switch-on speed rises by this and the switch-off speed by twice this (LH-PR-1);"
                    + " assumed."),
    HOLD_PRESSURE(
            FROM_BUILD,
            PRESSURE,
            bar(0.5),
            bar(20),
            bar(4),
            "Line pressure below which an engaged element may slip (LH-PR-2)."),
    LOW_PRESSURE_CONFIRM_TIME(
            TYPED,
            TIME,
            0,
            1,
            0.02,
            "How long below hold pressure, shaft turning, before drive is reduced (LH-PR-2, requirement)."),
    PRESSURE_RETURN_TIME(
            TYPED,
            TIME,
            0.1,
            60,
            2,
            "How long pressure must be back before drive is given again (LH-PR-2, requirement)."),
    ENGAGEMENT_ALLOWANCE(
            FROM_BUILD,
            TIME,
            0.1,
            60,
            new double[] {-20, 20},
            new double[] {5, 1.2},
            "How long an element may fill at standstill before it is a fault (LH-PR-2, requirement)."),
    PRIME_LIMIT_TIME(
            TYPED,
            TIME,
            0.5,
            120,
            new double[] {-20, 20},
            new double[] {6, 3},
            "How long prime may take until pressure holds before a code is raised (LH-PR-3); assumed: over three times the"
                    + " demonstration circuit's time from empty."),
    SENDER_STUCK_BAND(
            TYPED,
            PRESSURE,
            0,
            bar(5),
            bar(0.3),
            "A sender that moves less than this where pressure must move is suspect (LH-PR-4); 0 turns this off; half of"
                    + " the least move of a healthy hand-over or less (assumed)."),
    SENDER_MOTION_TIME(
            TYPED,
            TIME,
            0.1,
            10,
            1,
            "How long after a prime or a hand-over the sender is given to move (LH-PR-4); assumed."),
    ZERO_TORQUE_REQUEST(TYPED, TORQUE, 0, 50, 5, "A request within this of zero counts as none (LH-PR-2); assumed."),
    FIRST_TORQUE_PER_PRESSURE(
            FROM_BUILD,
            TORQUE_PER_PRESSURE,
            0,
            1,
            2.6e-4,
            "Motor torque the first-gear element carries per Pa above touch, share and safety factor counted (LH-PR-5)."),
    FIRST_TOUCH_PRESSURE(FROM_BUILD, PRESSURE, 0, bar(20), bar(1), "Line pressure at which that element touches."),
    TOP_TORQUE_PER_PRESSURE(
            FROM_BUILD,
            TORQUE_PER_PRESSURE,
            0,
            1,
            8.5e-4,
            "Motor torque the top-gear element carries per Pa above touch, share and safety factor counted (LH-PR-5)."),
    TOP_TOUCH_PRESSURE(FROM_BUILD, PRESSURE, 0, bar(20), bar(0.9), "Line pressure at which that element touches."),
    REVERSE_TORQUE_PER_PRESSURE(
            FROM_BUILD,
            TORQUE_PER_PRESSURE,
            0,
            1,
            2.5e-4,
            "Motor torque the reverse element carries per Pa above touch, share and safety factor counted (LH-PR-5)."),
    REVERSE_TOUCH_PRESSURE(FROM_BUILD, PRESSURE, 0, bar(20), bar(0.9), "Line pressure at which that element touches."),

    // Optional inputs (LH-TK-2)
    PUMP_CURRENT_FITTED(FROM_BUILD, FLAG, 0, 1, 0, "Whether pump current is measured."),
    OIL_TEMPERATURE_FITTED(
            FROM_BUILD,
            FLAG,
            0,
            1,
            1,
            "Whether oil temperature is measured; without it each curve's largest value counts."),
    BRAKE_FITTED(FROM_BUILD, FLAG, 0, 1, 1, "Whether the controller sees the brake switch."),
    RANGE_FITTED(FROM_BUILD, FLAG, 0, 1, 1, "Whether the controller sees the selected range."),
    TORQUE_REQUEST_FITTED(FROM_BUILD, FLAG, 0, 1, 1, "Whether the controller sees the driver's torque request.");

    /** Who gives the value. */
    public enum Source {
        /** People, in the calibration part of the build file. */
        TYPED,
        /** The reader of the build file, from a part that describes the car, so that it is typed once. */
        FROM_BUILD
    }

    /** What the value looks like. */
    public enum Shape {
        SCALAR,
        /** Straight lines between points over oil temperature, °C; flat outside them. */
        OVER_OIL_TEMPERATURE
    }

    private final Source source;
    private final Quantity quantity;
    private final double least;
    private final double most;
    private final double[] defaultOilC;
    private final double[] defaultValues;
    private final String reason;

    Key(Source source, Quantity quantity, double least, double most, double defaultValue, String reason) {
        this(source, quantity, least, most, null, new double[] {defaultValue}, reason);
    }

    Key(
            Source source,
            Quantity quantity,
            double least,
            double most,
            double[] defaultOilC,
            double[] defaultValues,
            String reason) {
        this.source = source;
        this.quantity = quantity;
        this.least = least;
        this.most = most;
        this.defaultOilC = defaultOilC;
        this.defaultValues = defaultValues;
        this.reason = reason;
    }

    /** The name in the build file, for example {@code switch-on-speed}. */
    public String yamlName() {
        return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
    }

    public Source source() {
        return source;
    }

    public Quantity quantity() {
        return quantity;
    }

    public Shape shape() {
        return defaultOilC == null ? Shape.SCALAR : Shape.OVER_OIL_TEMPERATURE;
    }

    /** Smallest allowed value, SI. */
    public double least() {
        return least;
    }

    /** Largest allowed value, SI. */
    public double most() {
        return most;
    }

    /**
     * The value of a scalar that nobody gave, SI.
     *
     * @throws IllegalStateException for a curve
     */
    public double defaultValue() {
        if (shape() != Shape.SCALAR) {
            throw new IllegalStateException(yamlName() + " is a curve");
        }
        return defaultValues[0];
    }

    /**
     * Oil temperatures of the default curve, °C.
     *
     * @throws IllegalStateException for a scalar
     */
    public double[] defaultOilC() {
        if (shape() != Shape.OVER_OIL_TEMPERATURE) {
            throw new IllegalStateException(yamlName() + " is no curve");
        }
        return defaultOilC.clone();
    }

    /** Values of the default curve (for a scalar its one default), SI. */
    public double[] defaultValues() {
        return defaultValues.clone();
    }

    /** Why the value exists and where its default comes from, one sentence. */
    public String reason() {
        return reason;
    }

    private static double rpm(double rpm) {
        return rpm * Math.PI / 30;
    }

    private static double bar(double bar) {
        return bar * 1e5;
    }
}
