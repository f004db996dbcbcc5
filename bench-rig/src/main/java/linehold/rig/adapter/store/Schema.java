package linehold.rig.adapter.store;

import java.nio.ByteBuffer;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Arrays;
import java.util.List;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.safety.TroubleCode;
import linehold.controller.tick.TickField;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.TickRow;

/** The tables of a recording, and what is written into them once; described in docs/recordings.md. */
final class Schema {
    /** SQLite's application id: the letters LHRC. */
    static final int APPLICATION_ID = 0x4C48_5243;
    /** Raised with every change that a reader must know of. */
    static final int VERSION = 1;
    /** A block takes two or three pages of this size; larger ones would be half empty. */
    private static final int PAGE_BYTES = 1024;

    static final String DUE_NS = "due_ns";
    static final String LATE_NS = "late_ns";
    static final String RIG_FAULTS = "rig_faults";

    static final String FACT_RELEASE = "release";
    static final String FACT_BUILD = "build";
    static final String FACT_BUILD_SHA256 = "build_sha256";
    static final String FACT_RIG = "rig";
    static final String FACT_STARTED = "started_utc";
    static final String FACT_ENDED = "ended_utc";
    static final String FACT_PERIOD_NS = "control_period_ns";
    static final String FACT_CALIBRATION_SCHEMA = "calibration_schema";
    static final String FACT_CALIBRATION_CHECKSUM = "calibration_checksum";

    private static final List<String> TABLES = List.of(
            "CREATE TABLE fact (name TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID",
            "CREATE TABLE field (place INTEGER PRIMARY KEY, name TEXT NOT NULL, unit TEXT NOT NULL, choices TEXT NOT NULL)",
            "CREATE TABLE trouble_code (bit INTEGER PRIMARY KEY, number TEXT NOT NULL, title TEXT NOT NULL)",
            "CREATE TABLE rig_fault (bit INTEGER PRIMARY KEY, name TEXT NOT NULL, text TEXT NOT NULL)",
            "CREATE TABLE calibration (key TEXT NOT NULL, point INTEGER NOT NULL, oil_c REAL, value REAL NOT NULL,"
                    + " PRIMARY KEY (key, point)) WITHOUT ROWID",
            "CREATE TABLE initial_codes (longs BLOB NOT NULL, doubles BLOB NOT NULL)",
            "CREATE TABLE block (first_tick INTEGER PRIMARY KEY, ticks INTEGER NOT NULL, missed INTEGER NOT NULL,"
                    + " first_ns INTEGER NOT NULL, last_ns INTEGER NOT NULL, written_ms INTEGER NOT NULL,"
                    + " crc32 INTEGER NOT NULL, data BLOB NOT NULL)",
            "CREATE TABLE event (tick INTEGER NOT NULL, now_ns INTEGER NOT NULL, kind TEXT NOT NULL, name TEXT NOT NULL)",
            "CREATE INDEX event_tick ON event (tick)");

    private Schema() {}

    /** Fills an empty database; the caller's transaction. */
    static void create(Connection connection, RecordingFacts facts, String startedUtc) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            for (String table : TABLES) {
                statement.execute(table);
            }
        }
        Calibration calibration = facts.calibration();
        putFact(connection, FACT_RELEASE, facts.release());
        putFact(connection, FACT_BUILD, facts.buildName());
        putFact(connection, FACT_BUILD_SHA256, facts.buildSha256());
        putFact(connection, FACT_RIG, facts.rig());
        putFact(connection, FACT_STARTED, startedUtc);
        putFact(connection, FACT_PERIOD_NS, Long.toString(calibration.ns(Key.CONTROL_PERIOD)));
        putFact(connection, FACT_CALIBRATION_SCHEMA, Integer.toString(Calibration.SCHEMA_VERSION));
        putFact(connection, FACT_CALIBRATION_CHECKSUM, Long.toString(calibration.checksum()));
        putFields(connection);
        putMeanings(connection);
        putCalibration(connection, calibration);
        try (PreparedStatement insert = connection.prepareStatement("INSERT INTO initial_codes VALUES (?, ?)")) {
            insert.setBytes(1, bytes(facts.codeLongs()));
            insert.setBytes(2, bytes(facts.codeDoubles()));
            insert.execute();
        }
    }

    /** What holds for the whole file, before its first table is made. */
    static void stamp(Connection connection) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.execute("PRAGMA page_size = " + PAGE_BYTES);
            statement.execute("PRAGMA application_id = " + APPLICATION_ID);
            statement.execute("PRAGMA user_version = " + VERSION);
        }
    }

    static void putFact(Connection connection, String name, String value) throws SQLException {
        try (PreparedStatement insert = connection.prepareStatement("INSERT OR REPLACE INTO fact VALUES (?, ?)")) {
            insert.setString(1, name);
            insert.setString(2, value);
            insert.execute();
        }
    }

    private static void putFields(Connection connection) throws SQLException {
        try (PreparedStatement insert = connection.prepareStatement("INSERT INTO field VALUES (?, ?, ?, ?)")) {
            for (int place = 0; place < TickRow.LENGTH; place++) {
                TickField field = TickRow.fieldAt(place);
                insert.setInt(1, place);
                insert.setString(2, fieldName(place));
                insert.setString(3, field == null ? place == TickRow.RIG_FAULTS ? "" : "ns" : field.unit());
                insert.setString(4, field == null ? "" : String.join(" ", field.choices()));
                insert.execute();
            }
        }
    }

    /** The column at a place of a row; the first three are not the controller's. */
    static String fieldName(int place) {
        return switch (place) {
            case TickRow.NOW_NS -> DUE_NS;
            case TickRow.LATE_NS -> LATE_NS;
            case TickRow.RIG_FAULTS -> RIG_FAULTS;
            default -> TickRow.fieldAt(place).columnName();
        };
    }

    private static void putMeanings(Connection connection) throws SQLException {
        try (PreparedStatement insert = connection.prepareStatement("INSERT INTO trouble_code VALUES (?, ?, ?)")) {
            for (TroubleCode code : TroubleCode.values()) {
                insert.setInt(1, code.ordinal());
                insert.setString(2, code.number());
                insert.setString(3, code.title());
                insert.execute();
            }
        }
        try (PreparedStatement insert = connection.prepareStatement("INSERT INTO rig_fault VALUES (?, ?, ?)")) {
            for (RigFault fault : RigFault.values()) {
                insert.setInt(1, fault.ordinal());
                insert.setString(2, fault.name());
                insert.setString(3, fault.text());
                insert.execute();
            }
        }
    }

    private static void putCalibration(Connection connection, Calibration calibration) throws SQLException {
        try (PreparedStatement insert = connection.prepareStatement("INSERT INTO calibration VALUES (?, ?, ?, ?)")) {
            for (Key key : Key.values()) {
                boolean curve = key.shape() == Key.Shape.OVER_OIL_TEMPERATURE;
                double[] oilC = curve ? calibration.curveOilC(key) : null;
                double[] values = curve ? calibration.curveValues(key) : new double[] {calibration.get(key)};
                for (int i = 0; i < values.length; i++) {
                    insert.setString(1, key.yamlName());
                    insert.setInt(2, i);
                    insert.setObject(3, oilC == null ? null : oilC[i]);
                    insert.setDouble(4, values[i]);
                    insert.execute();
                }
            }
        }
    }

    private static byte[] bytes(long[] longs) {
        ByteBuffer buffer = ByteBuffer.allocate(Long.BYTES * longs.length);
        buffer.asLongBuffer().put(longs);
        return buffer.array();
    }

    private static byte[] bytes(double[] doubles) {
        return bytes(
                Arrays.stream(doubles).mapToLong(Double::doubleToRawLongBits).toArray());
    }
}
