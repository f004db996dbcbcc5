package linehold.rig.adapter.store;

import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.CalibrationException;
import linehold.controller.calibration.Key;
import linehold.rig.loop.TickRow;
import linehold.simulator.build.InputException;

/** A recording that is read. It may be written at the same time. */
public final class Recording implements AutoCloseable {
    private final Path file;
    private final Connection connection;
    private final Map<String, String> facts = new HashMap<>();
    private final List<RecordedField> fields = new ArrayList<>();

    private Recording(Path file, Connection connection) {
        this.file = file;
        this.connection = connection;
    }

    /** @throws InputException where there is no recording that can be read */
    public static Recording open(Path file) {
        if (!Files.isRegularFile(file)) {
            throw new InputException(file + ": no such recording");
        }
        Recording recording;
        try {
            recording = new Recording(file, DriverManager.getConnection("jdbc:sqlite:" + file.toAbsolutePath()));
        } catch (SQLException e) {
            throw unreadable(file, e);
        }
        try {
            recording.readHead();
            return recording;
        } catch (SQLException | RuntimeException e) {
            recording.close();
            throw e instanceof SQLException failure ? unreadable(file, failure) : (RuntimeException) e;
        }
    }

    static InputException unreadable(Path file, SQLException e) {
        return new InputException(
                file + ": cannot be read as a recording (" + e.getMessage().replaceAll("\\s+", " ")
                        + "), expected one that a rig wrote, in a folder that may be written",
                e);
    }

    private void readHead() throws SQLException {
        try (Statement statement = connection.createStatement()) {
            long version = number(statement, "PRAGMA user_version");
            if (number(statement, "PRAGMA application_id") != Schema.APPLICATION_ID || version != Schema.VERSION) {
                throw new InputException(file + ": found no recording of format " + Schema.VERSION
                        + ", expected one that this release of linehold can read");
            }
            try (ResultSet result = statement.executeQuery("SELECT name, value FROM fact")) {
                while (result.next()) {
                    facts.put(result.getString(1), result.getString(2));
                }
            }
            try (ResultSet result = statement.executeQuery("SELECT name, unit, choices FROM field ORDER BY place")) {
                while (result.next()) {
                    String choices = result.getString(3);
                    fields.add(new RecordedField(
                            result.getString(1),
                            result.getString(2),
                            choices.isEmpty() ? List.of() : List.of(choices.split(" "))));
                }
            }
        }
    }

    private static long number(Statement statement, String query) throws SQLException {
        try (ResultSet result = statement.executeQuery(query)) {
            return result.next() ? result.getLong(1) : 0;
        }
    }

    /** The columns of a row, in its order; the first is named for what is stored, but rows begin with their time. */
    public List<RecordedField> fields() {
        return List.copyOf(fields);
    }

    /** Whether this release gives the same meaning to every number of a row. */
    public boolean hasFieldsOfThisRelease() {
        return fields.size() == TickRow.LENGTH
                && IntStream.range(0, TickRow.LENGTH).allMatch(place -> {
                    var field = TickRow.fieldAt(place);
                    return fields.get(place).name().equals(Schema.fieldName(place))
                            && (field == null || fields.get(place).choices().equals(field.choices()));
                });
    }

    /** Rows from the first one that is kept. */
    public RecordedRows rows() {
        try {
            return new RecordedRows(file, connection, fields.size());
        } catch (SQLException e) {
            throw unreadable(file, e);
        }
    }

    /** Everything that changed, oldest first. */
    public List<RecordedEvent> events() {
        List<RecordedEvent> events = new ArrayList<>();
        try (Statement statement = connection.createStatement();
                ResultSet result =
                        statement.executeQuery("SELECT tick, now_ns, kind, name FROM event ORDER BY rowid")) {
            while (result.next()) {
                events.add(new RecordedEvent(
                        result.getLong(1),
                        result.getLong(2),
                        RecordedEvent.Kind.valueOf(result.getString(3)),
                        result.getString(4)));
            }
            return events;
        } catch (SQLException e) {
            throw unreadable(file, e);
        }
    }

    /** What is kept of it, without its id, size and whether it is still written. */
    RecordingSummary.Extent extent() {
        String query = "SELECT min(first_tick), min(first_ns), max(last_ns), max(written_ms), sum(ticks) FROM block";
        try (Statement statement = connection.createStatement();
                ResultSet result = statement.executeQuery(query)) {
            result.next();
            return new RecordingSummary.Extent(
                    result.getLong(1), result.getLong(2), result.getLong(3), result.getLong(4), result.getLong(5));
        } catch (SQLException e) {
            throw unreadable(file, e);
        }
    }

    /** Release, build and rig, for people. */
    public String describe() {
        return "by " + fact(Schema.FACT_RELEASE) + ", build " + fact(Schema.FACT_BUILD) + ", " + fact(Schema.FACT_RIG);
    }

    String fact(String name) {
        return facts.get(name);
    }

    private long wholeFact(String name) {
        try {
            return Long.parseLong(fact(name));
        } catch (NumberFormatException e) {
            throw new InputException(file + ": found " + name + " '" + fact(name) + "', expected a whole number", e);
        }
    }

    /**
     * What a replay needs.
     *
     * @throws InputException where this release has another calibration schema, or the values do not have their checksum
     */
    public RecordingFacts facts() {
        try (Statement statement = connection.createStatement();
                ResultSet codes = statement.executeQuery("SELECT longs, doubles FROM initial_codes")) {
            codes.next();
            long[] longs = longs(codes.getBytes(1));
            double[] doubles = Arrays.stream(longs(codes.getBytes(2)))
                    .mapToDouble(Double::longBitsToDouble)
                    .toArray();
            return new RecordingFacts(
                    fact(Schema.FACT_RELEASE),
                    fact(Schema.FACT_BUILD),
                    fact(Schema.FACT_BUILD_SHA256),
                    fact(Schema.FACT_RIG),
                    calibration(),
                    longs,
                    doubles);
        } catch (SQLException e) {
            throw unreadable(file, e);
        }
    }

    private static long[] longs(byte[] bytes) {
        long[] longs = new long[bytes.length / Long.BYTES];
        ByteBuffer.wrap(bytes).asLongBuffer().get(longs);
        return longs;
    }

    private Calibration calibration() throws SQLException {
        Map<String, List<double[]>> points = new TreeMap<>();
        try (Statement statement = connection.createStatement();
                ResultSet result =
                        statement.executeQuery("SELECT key, oil_c, value FROM calibration ORDER BY key, point")) {
            while (result.next()) {
                points.computeIfAbsent(result.getString(1), key -> new ArrayList<>())
                        .add(new double[] {result.getDouble(2), result.getDouble(3)});
            }
        }
        try {
            Calibration.Builder builder = Calibration.builder();
            for (Key key : Key.values()) {
                List<double[]> values = points.getOrDefault(key.yamlName(), List.of());
                if (values.isEmpty()) {
                    throw new InputException(
                            file + ": its calibration has no " + key.yamlName() + ": it is of another release");
                }
                if (key.shape() == Key.Shape.SCALAR) {
                    builder.set(key, values.get(0)[1]);
                } else {
                    builder.setCurve(
                            key,
                            values.stream().mapToDouble(point -> point[0]).toArray(),
                            values.stream().mapToDouble(point -> point[1]).toArray());
                }
            }
            Calibration calibration = builder.build();
            calibration.verify(
                    (int) wholeFact(Schema.FACT_CALIBRATION_SCHEMA), wholeFact(Schema.FACT_CALIBRATION_CHECKSUM));
            return calibration;
        } catch (CalibrationException e) {
            throw new InputException(file + ": " + e.getMessage(), e);
        }
    }

    /** Pages in use, in the file or still in its log, bytes. */
    long usedBytes() {
        try (Statement statement = connection.createStatement()) {
            return (number(statement, "PRAGMA page_count") - number(statement, "PRAGMA freelist_count"))
                    * number(statement, "PRAGMA page_size");
        } catch (SQLException e) {
            throw unreadable(file, e);
        }
    }

    /** SQLite's own examination of the whole file; "ok" where it finds nothing. */
    String integrity() {
        try (Statement statement = connection.createStatement();
                ResultSet result = statement.executeQuery("PRAGMA integrity_check")) {
            return result.getString(1);
        } catch (SQLException e) {
            return e.getMessage();
        }
    }

    @Override
    public void close() {
        try {
            connection.close();
        } catch (SQLException e) {
            Recorder.LOG.debug("closing {}", file, e);
        }
    }
}
