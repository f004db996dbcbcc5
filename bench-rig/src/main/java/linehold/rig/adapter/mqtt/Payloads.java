package linehold.rig.adapter.mqtt;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import linehold.controller.DrivePermission;
import linehold.controller.safety.SelfTestState;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;
import linehold.controller.tick.TickField;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.TickRow;

/** What is published, word for word; {@code docs/mqtt.md} describes it. SI units, unit last in a name, "none" is null. */
final class Payloads {
    static final byte[] ONLINE = "online".getBytes(StandardCharsets.US_ASCII);
    static final byte[] OFFLINE = "offline".getBytes(StandardCharsets.US_ASCII);

    private static final int FORMAT = 1;
    private static final double S_PER_NS = 1e-9;
    private static final PumpState[] STATES = PumpState.values();
    private static final SwitchReason[] REASONS = SwitchReason.values();
    private static final DrivePermission[] PERMISSIONS = DrivePermission.values();
    private static final SelfTestState[] SELF_TESTS = SelfTestState.values();

    private final RigIdentity identity;
    private final Instant session;

    /** @param session start of this run, by the wall clock */
    Payloads(RigIdentity identity, Instant session) {
        this.identity = identity;
        this.session = session;
    }

    byte[] about() {
        return new Json()
                .put("format", FORMAT)
                .put("session", text(session))
                .put("release", identity.release())
                .put("rig", identity.rig())
                .put("build", identity.buildName())
                .put("build_sha256", identity.buildSha256())
                .put("calibration_checksum", "%016x".formatted(identity.calibrationChecksum()))
                .put("control_period_s", identity.controlPeriodNs() * S_PER_NS)
                .bytes();
    }

    /** An event without its own facts, to which the caller adds them. */
    Json event(String name, long seq, Moment moment) {
        return begin(moment, "event", name).put("seq", seq);
    }

    byte[] eventsLost(Loss loss) {
        return new Json()
                .put("session", text(session))
                .put("event", "events_lost")
                .put("count", loss.count())
                .put("first_seq", loss.first())
                .put("last_seq", loss.last())
                .bytes();
    }

    /**
     * @param seq of the newest event
     * @param rigFaults bits of {@link RigFault}
     */
    byte[] state(long seq, Moment moment, double[] row, long rigFaults, long lostEvents) {
        return begin(moment, "seq", seq)
                .put("pump_state", pumpState(row))
                .put("reason", reason(row))
                .put("pump_wanted", flag(row, TickField.PUMP_WANTED))
                .put("main_relay_coil", flag(row, TickField.MAIN_RELAY_COIL))
                .put("standby_relay_coil", flag(row, TickField.STANDBY_RELAY_COIL))
                .put("drive_permission", permission(row))
                .number("torque_limit_nm", value(row, TickField.TORQUE_LIMIT_NM), 10)
                .put("warning_lamp", flag(row, TickField.WARNING_LAMP))
                .put("buzzer", flag(row, TickField.BUZZER))
                .put("key_on", flag(row, TickField.KEY_ON))
                .put("self_test", word(SELF_TESTS[(int) value(row, TickField.SELF_TEST)]))
                .put("active_codes", codes((long) value(row, TickField.ACTIVE_CODES)))
                .put("stored_codes", codes((long) value(row, TickField.STORED_CODES)))
                .put("rig_faults", faults(rigFaults))
                .put("lost_events", lostEvents)
                .bytes();
    }

    byte[] sample(Moment moment, double[] row, SampleWindow window) {
        return begin(moment, "ticks", window.ticks())
                .whole("line_pressure_min_pa", window.linePressureMinPa())
                .whole("line_pressure_max_pa", window.linePressureMaxPa())
                .whole("line_pressure_pa", value(row, TickField.LINE_PRESSURE_PA))
                .number("shaft_speed_rad_s", value(row, TickField.SHAFT_SPEED_RAD_S), 100)
                .number("oil_c", value(row, TickField.OIL_C), 10)
                .number("bus_v", value(row, TickField.BUS_V), 100)
                .number("pump_current_a", value(row, TickField.PUMP_CURRENT_A), 100)
                .number("late_max_s", window.lateMaxNs() * S_PER_NS, 1e6)
                .put("pump_state", pumpState(row))
                .put("drive_permission", permission(row))
                .bytes();
    }

    private Json begin(Moment moment, String first, Object value) {
        return new Json()
                .put("session", text(session))
                .put(first, value)
                .number("uptime_s", moment.uptimeNs() * S_PER_NS, 1000)
                .put("utc", text(moment.utc()));
    }

    /** To the millisecond, always with three digits, so that texts sort like times. */
    private static String text(Instant instant) {
        String seconds = instant.truncatedTo(ChronoUnit.SECONDS).toString();
        return "%s.%03dZ".formatted(seconds.substring(0, seconds.length() - 1), instant.getNano() / 1_000_000);
    }

    static String pumpState(double[] row) {
        return word(STATES[(int) value(row, TickField.STATE)]);
    }

    static String reason(double[] row) {
        return word(REASONS[(int) value(row, TickField.REASON)]);
    }

    static String permission(double[] row) {
        return word(PERMISSIONS[(int) value(row, TickField.PERMISSION)]);
    }

    private static List<String> codes(long bits) {
        List<String> codes = new ArrayList<>();
        for (TroubleCode code : TroubleCode.values()) {
            if ((bits & code.bit()) != 0) {
                codes.add(code.number());
            }
        }
        return codes;
    }

    private static List<String> faults(long bits) {
        List<String> faults = new ArrayList<>();
        for (RigFault fault : RigFault.values()) {
            if ((bits & fault.bit()) != 0) {
                faults.add(word(fault));
            }
        }
        return faults;
    }

    static String word(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT);
    }

    static double value(double[] row, TickField field) {
        return row[TickRow.indexOf(field)];
    }

    private static boolean flag(double[] row, TickField field) {
        return value(row, field) != 0;
    }
}
