package linehold.simulator.fault;

import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.circuit.Condition;
import linehold.simulator.circuit.Condition.Valve;
import linehold.simulator.electrics.Relay;
import linehold.simulator.electrics.RelayContact.Failure;
import linehold.simulator.sensor.SensorFaults.Sender;

/**
 * Every fault the simulator knows, one entry each: what it is called, which part it belongs to, how bad and how long it
 * usually is, and what it does. A new fault is a new entry here and nothing else. Sizes and durations are assumed where no
 * source is named. The list is long because it is a table.
 */
public enum FaultKind {
    // ---- relays
    MAIN_RELAY_WELDED(Part.RELAY, "main relay welded", Size.NONE, forEver(), relay(Relay.MAIN, Failure.WELDED)),
    MAIN_RELAY_STUCK_OPEN(
            Part.RELAY, "main relay never closes", Size.NONE, forEver(), relay(Relay.MAIN, Failure.STUCK_OPEN)),
    MAIN_CONTACT_WORN(Part.RELAY, "main contact worn", Size.ohm(0.3), forEver(), contact(Relay.MAIN)),
    MAIN_CONTACT_BOUNCING(Part.RELAY, "main contact bounces", Size.seconds(0.05), forEver(), bounce(Relay.MAIN)),
    MAIN_COIL_LOST(
            Part.RELAY,
            "main coil not driven",
            Size.NONE,
            forEver(),
            new Effect((t, size) -> t.unit().mainCoilLost = true, t -> t.unit().mainCoilLost = false)),
    STANDBY_RELAY_WELDED(
            Part.RELAY, "standby relay welded", Size.NONE, forEver(), relay(Relay.STANDBY, Failure.WELDED)),
    STANDBY_RELAY_STUCK_OPEN(
            Part.RELAY, "standby relay never closes", Size.NONE, forEver(), relay(Relay.STANDBY, Failure.STUCK_OPEN)),
    STANDBY_CONTACT_WORN(Part.RELAY, "standby contact worn", Size.ohm(0.3), forEver(), contact(Relay.STANDBY)),
    STANDBY_CONTACT_BOUNCING(
            Part.RELAY, "standby contact bounces", Size.seconds(0.05), forEver(), bounce(Relay.STANDBY)),
    STANDBY_COIL_LOST(
            Part.RELAY,
            "standby coil not driven",
            Size.NONE,
            forEver(),
            new Effect((t, size) -> t.unit().standbyCoilLost = true, t -> t.unit().standbyCoilLost = false)
                    .on(Relay.STANDBY)),

    // ---- electric pump
    PUMP_FUSE_BLOWN(Part.PUMP, "pump fuse blown", Size.NONE, forEver(), circuit((c, s) -> c.fuseBlown = s > 0)),
    PUMP_MOTOR_OPEN(Part.PUMP, "pump motor open", Size.NONE, forEver(), circuit((c, s) -> c.motorOpen = s > 0)),
    PUMP_STALLED(Part.PUMP, "pump seized", Size.NONE, forEver(), circuit((c, s) -> c.motorStalled = s > 0)),
    PUMP_WORN(
            Part.PUMP, "pump worn", Size.times(5), forEver(), circuit((c, s) -> c.electricSlipFactor = s > 0 ? s : 1)),
    PUMP_DRY(Part.PUMP, "pump runs dry", Size.NONE, 3, circuit((c, s) -> c.electricDelivery = s > 0 ? 0 : 1)),
    SUCTION_BLOCKED(
            Part.PUMP,
            "suction partly blocked",
            Size.share(0.3),
            forEver(),
            circuit((c, s) -> c.electricDelivery = s > 0 ? s : 1)),

    // ---- hydraulics
    AIR_IN_OIL(
            Part.HYDRAULICS,
            "air in the oil",
            Size.times(4),
            forEver(),
            circuit((c, s) -> c.airFactor = s > 0 ? s : 1)),
    HOSE_LEAK(
            Part.HYDRAULICS,
            "hose leaks",
            Size.boreM(1.5e-3),
            forEver(),
            circuit((c, s) -> c.lineLeakM2 = orificeM2(s))),
    CHECK_VALVE_STUCK_OPEN(
            Part.HYDRAULICS, "check valve stuck open", Size.NONE, forEver(), valve(true, Valve.STUCK_OPEN)),
    CHECK_VALVE_STUCK_SHUT(
            Part.HYDRAULICS, "check valve stuck shut", Size.NONE, forEver(), valve(true, Valve.STUCK_SHUT)),
    REGULATOR_STUCK_OPEN(Part.HYDRAULICS, "regulator stuck open", Size.NONE, forEver(), valve(false, Valve.STUCK_OPEN)),
    REGULATOR_STUCK_SHUT(Part.HYDRAULICS, "regulator stuck shut", Size.NONE, forEver(), valve(false, Valve.STUCK_SHUT)),
    INTERNAL_PUMP_WORN(
            Part.HYDRAULICS,
            "internal pump worn",
            Size.times(4),
            forEver(),
            circuit((c, s) -> c.internalSlipFactor = s > 0 ? s : 1)),
    BAND_SEAL_LEAK(Part.HYDRAULICS, "band seal leaks", Size.boreM(1.2e-3), forEver(), seal(Element.LOW_BAND)),
    CLUTCH_SEAL_LEAK(Part.HYDRAULICS, "clutch seal leaks", Size.boreM(1.2e-3), forEver(), seal(Element.HIGH_CLUTCH)),

    // ---- pickup
    PICKUP_DEAD(
            Part.PICKUP,
            "pickup dead",
            Size.NONE,
            forEver(),
            new Effect((t, size) -> t.sensors().pickupDead = true, t -> t.sensors().pickupDead = false)),
    PICKUP_FROZEN(
            Part.PICKUP,
            "pulse count frozen",
            Size.NONE,
            1,
            new Effect((t, size) -> t.sensors().pickupDead = true, t -> t.sensors().pickupDead = false)),
    PICKUP_TOOTH_MISSING(
            Part.PICKUP,
            "one tooth missing",
            Size.NONE,
            forEver(),
            new Effect((t, size) -> t.sensors().toothMissing = true, t -> t.sensors().toothMissing = false)),
    PICKUP_NOISE(
            Part.PICKUP,
            "extra pulses",
            Size.perSecond(200),
            forEver(),
            new Effect((t, size) -> t.sensors().extraEdgesPerS = size, t -> t.sensors().extraEdgesPerS = 0)),

    // ---- pressure sender
    SENDER_OPEN(Part.SENDER, "sender wire off", Size.NONE, forEver(), sender(Sender.OPEN)),
    SENDER_SHORTED(Part.SENDER, "sender shorted", Size.NONE, forEver(), sender(Sender.SHORTED)),
    SENDER_STUCK(Part.SENDER, "sender stuck", Size.NONE, forEver(), sender(Sender.STUCK)),
    SENDER_DRIFTING(
            Part.SENDER,
            "sender drifts",
            Size.paPerS(2e4),
            forEver(),
            new Effect((t, size) -> t.sensors().senderDriftPaPerS = size, t -> {
                        t.sensors().senderDriftPaPerS = 0;
                        t.sensors().senderOffsetPa = 0;
                    })
                    .ifFitted(Key.SENDER_FITTED)),
    SENDER_SLOW(
            Part.SENDER,
            "sender slow",
            Size.times(40),
            forEver(),
            new Effect((t, size) -> t.sensors().senderLagFactor = size, t -> t.sensors().senderLagFactor = 1)
                    .ifFitted(Key.SENDER_FITTED)),

    // ---- readback and current
    READBACK_BROKEN(
            Part.RELAY,
            "main readback wire broken",
            Size.NONE,
            forEver(),
            new Effect(
                    (t, size) -> t.sensors().mainReadbackBroken = true, t -> t.sensors().mainReadbackBroken = false)),
    STANDBY_READBACK_BROKEN(
            Part.RELAY,
            "standby readback wire broken",
            Size.NONE,
            forEver(),
            new Effect(
                            (t, size) -> t.sensors().standbyReadbackBroken = true,
                            t -> t.sensors().standbyReadbackBroken = false)
                    .on(Relay.STANDBY)),
    CURRENT_SENSOR_DEAD(
            Part.PUMP,
            "pump current sensor dead",
            Size.NONE,
            forEver(),
            new Effect((t, size) -> t.sensors().currentSensorDead = true, t -> t.sensors().currentSensorDead = false)
                    .ifFitted(Key.PUMP_CURRENT_FITTED)),

    // ---- supply; ISO 16750-2:2023, 12 V systems, from a public catalogue of tests that cites each clause
    BUS_SAG(Part.SUPPLY, "bus sags", Size.volts(9.5), forEver(), bus(new double[][] {{0, Double.NaN}})),
    BUS_DROPOUT(Part.SUPPLY, "bus drops out", Size.NONE, 0.2, bus(new double[][] {{0, 0}})),
    BUS_MOMENTARY_DROP(Part.SUPPLY, "momentary drop (ISO 16750-2 4.6.1.1)", Size.NONE, 0.12, bus(new double[][] {
        {0, 9}, {0.01, 4.5}, {0.11, 4.5}, {0.12, 9}
    })),
    BUS_JUMP_START(
            Part.SUPPLY,
            "jump start 26 V (ISO 16750-2:2023 4.3.1.2; 24 V in older editions)",
            Size.NONE,
            60,
            bus(new double[][] {{0, 10.8}, {0.01, 26}})),
    BUS_CHARGER_FAILED(
            Part.SUPPLY, "voltage regulator failed, 18 V (ISO 16750-2 4.3.1.1)", Size.NONE, 3600, bus(new double[][] {
                {0, 18}
            })),
    BUS_OVERSHOOT(Part.SUPPLY, "transient 18 V (ISO 16750-2 4.3.2)", Size.NONE, 0.4, bus(new double[][] {{0, 18}})),
    BUS_STARTING_PROFILE(Part.SUPPLY, "starting profile II (ISO 16750-2 4.6.3)", Size.NONE, 10.17, bus(new double[][] {
        {0, 12}, {0.005, 4.5}, {0.02, 4.5}, {0.07, 6.5}, {10.07, 6.5}, {10.17, 12}
    })),

    // ---- control unit
    UNIT_RESET(
            Part.UNIT,
            "control unit restarts",
            Size.NONE,
            2,
            new Effect((t, size) -> t.unit().dead = true, t -> t.unit().dead = false)),
    UNIT_DEAD(
            Part.UNIT,
            "control unit dead",
            Size.NONE,
            forEver(),
            new Effect((t, size) -> t.unit().dead = true, t -> t.unit().dead = false)),
    UNIT_LATE(
            Part.UNIT,
            "ticks late",
            Size.seconds(0.08),
            5,
            new Effect((t, size) -> t.unit().tickEveryS = size, t -> t.unit().tickEveryS = 0));

    /** The part of the car that a fault belongs to. */
    public enum Part {
        RELAY("relays"),
        PUMP("electric pump"),
        HYDRAULICS("hydraulics"),
        PICKUP("speed pickup"),
        SENDER("pressure sender"),
        SUPPLY("supply"),
        UNIT("control unit");

        private final String title;

        Part(String title) {
            this.title = title;
        }

        public String title() {
            return title;
        }
    }

    /** How bad a fault usually is: an SI value and how it is written; NaN where it has no size. */
    private record Size(double value, String text) {
        static final Size NONE = new Size(Double.NaN, "");

        static Size ohm(double ohm) {
            return new Size(ohm, ohm + " Ω");
        }

        static Size seconds(double s) {
            return new Size(s, Math.round(s * 1000) + " ms");
        }

        static Size times(double factor) {
            return new Size(factor, "× " + Math.round(factor));
        }

        static Size share(double share) {
            return new Size(share, Math.round(share * 100) + " %");
        }

        static Size boreM(double m) {
            return new Size(m, m * 1000 + " mm bore");
        }

        static Size perSecond(double rate) {
            return new Size(rate, Math.round(rate) + " per second");
        }

        static Size paPerS(double rate) {
            return new Size(rate, rate / 1e5 + " bar/s");
        }

        static Size volts(double volts) {
            return new Size(volts, volts + " V");
        }
    }

    private interface Begin {
        void on(FaultTargets targets, double size);
    }

    private interface During {
        /** @param sinceS time since the fault began, s */
        void on(FaultTargets targets, double size, double sinceS);
    }

    private interface End {
        void on(FaultTargets targets);
    }

    private interface Change {
        /** @param size the fault's size (1 where it has none), or 0 to heal */
        void of(Condition condition, double size);
    }

    /** What a fault does; {@code part} is the optional part of a car that it can only befall where it is fitted. */
    private record Effect(Begin begin, During during, End end, Key part) {
        Effect(Begin begin, During during, End end) {
            this(begin, during, end, null);
        }

        Effect(Begin begin, End end) {
            this(begin, (t, size, since) -> {}, end);
        }

        Effect ifFitted(Key fitted) {
            return new Effect(begin, during, end, fitted);
        }

        /** The main relay is in every car. */
        Effect on(Relay relay) {
            return relay == Relay.STANDBY ? ifFitted(Key.STANDBY_RELAY_FITTED) : this;
        }
    }

    private final Part part;
    private final String title;
    private final Size size;
    private final double usualDurationS;
    private final Effect effect;

    FaultKind(Part part, String title, Size size, double usualDurationS, Effect effect) {
        this.part = part;
        this.title = title;
        this.size = size;
        this.usualDurationS = usualDurationS;
        this.effect = effect;
    }

    public Part part() {
        return part;
    }

    /** What people call it. */
    public String title() {
        return title;
    }

    /** Its name in files and on the command line: {@code main-relay-welded}. */
    public String key() {
        return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
    }

    /** How bad it usually is, SI; NaN where it has no size. */
    public double usualSize() {
        return size.value;
    }

    /** The same for people; empty where it has no size. */
    public String usualSizeText() {
        return size.text;
    }

    /** How long it usually lasts, s; infinite if it stays. */
    public double usualDurationS() {
        return usualDurationS;
    }

    /** Whether a build has the part that breaks. */
    public boolean isIn(Build build) {
        return effect.part == null || build.calibration().is(effect.part);
    }

    void begin(FaultTargets targets, double size) {
        effect.begin.on(targets, size);
    }

    /** Called at every tick while the fault lasts, the first included. */
    void during(FaultTargets targets, double size, double sinceS) {
        effect.during.on(targets, size, sinceS);
    }

    void end(FaultTargets targets) {
        effect.end.on(targets);
    }

    // ---- the usual effects ------------------------------------------------------------------------------------

    private static double forEver() {
        return Double.POSITIVE_INFINITY;
    }

    /** Cd·A of a hole of this bore; the sharp edge's 0.6 (Merritt 1967: 0.611). */
    private static double orificeM2(double boreM) {
        return 0.6 * Math.PI / 4 * boreM * boreM;
    }

    private static Effect circuit(Change change) {
        return new Effect(
                (t, size) -> {
                    change.of(t.plant().condition(), Double.isNaN(size) ? 1 : size);
                    t.plant().conditionChanged();
                },
                t -> {
                    change.of(t.plant().condition(), 0);
                    t.plant().conditionChanged();
                });
    }

    private static Effect valve(boolean check, Valve stuck) {
        return circuit((c, s) -> {
            Valve state = s > 0 ? stuck : Valve.HEALTHY;
            if (check) {
                c.checkValve = state;
            } else {
                c.regulator = state;
            }
        });
    }

    private static Effect seal(Element element) {
        return circuit((c, s) -> c.sealLeakM2[element.ordinal()] = orificeM2(s));
    }

    private static Effect relay(Relay relay, Failure failure) {
        return new Effect(
                        (t, size) -> t.plant().setRelayFailure(relay, failure),
                        t -> t.plant().setRelayFailure(relay, Failure.NONE))
                .on(relay);
    }

    private static Effect contact(Relay relay) {
        return new Effect(
                        (t, size) -> t.plant().setContactResistance(relay, size),
                        t -> t.plant().healContact(relay))
                .on(relay);
    }

    private static Effect bounce(Relay relay) {
        return new Effect(
                        (t, size) -> t.plant().setContactBounce(relay, size),
                        t -> t.plant().healContact(relay))
                .on(relay);
    }

    private static Effect sender(Sender state) {
        return new Effect((t, size) -> t.sensors().sender = state, t -> t.sensors().sender = Sender.HEALTHY)
                .ifFitted(Key.SENDER_FITTED);
    }

    /** A voltage over time: points of seconds since the start and volts, straight between them; NaN volts is the size. */
    private static Effect bus(double[][] profile) {
        return new Effect(
                (t, size) -> {},
                (t, size, since) -> t.unit().busOpenVolts = profileVolts(profile, size, since),
                t -> t.unit().busOpenVolts = Double.NaN);
    }

    private static double profileVolts(double[][] profile, double size, double sinceS) {
        for (int i = 1; i < profile.length; i++) {
            double[] from = profile[i - 1];
            double[] to = profile[i];
            if (sinceS < to[0]) {
                return from[1] + (to[1] - from[1]) * (sinceS - from[0]) / (to[0] - from[0]);
            }
        }
        double last = profile[profile.length - 1][1];
        return Double.isNaN(last) ? size : last;
    }
}
