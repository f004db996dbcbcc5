package linehold.simulator.certificate;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import linehold.simulator.certificate.Certificate.Basis;
import linehold.simulator.certificate.Certificate.Claim;
import linehold.simulator.certificate.Certificate.Slice;
import linehold.simulator.certificate.Certificate.Switching;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The certificate as a JSON file, SI units, numbers that read back to the very same; docs/certificate.md describes every
 * field. One line a curve, for there are thousands of points.
 */
public final class CertificateFile {
    /** Grows when a field changes its meaning or goes away. */
    public static final int SCHEMA = 1;

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    private CertificateFile() {}

    /** The file's bytes, the same on every machine. */
    public static byte[] toBytes(Certificate certificate) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (JsonGenerator json =
                MAPPER.writer().with(StreamWriteFeature.USE_FAST_DOUBLE_WRITER).createGenerator(bytes)) {
            json.writeStartObject();
            json.writeNumberProperty("schema", SCHEMA);
            basis(json, certificate.basis());
            Claim claim = certificate.claim();
            json.writeObjectPropertyStart("claim");
            json.writeNumberProperty("fall_rad_per_s2", claim.fallRadPerS2());
            json.writeNumberProperty("floor_rad_per_s", claim.floorRadPerS());
            json.writeNumberProperty("closed_after_s", claim.closedAfterS());
            json.writeNumberProperty("lowest_pa", claim.lowestPa());
            json.writeEndObject();
            json.writeArrayPropertyStart("slices");
            for (Slice slice : certificate.slices()) {
                json.writeRaw("\n");
                json.writeStartObject();
                json.writeNumberProperty("cold_c", slice.coldC());
                json.writeNumberProperty("hot_c", slice.hotC());
                curve(json, "fall", slice.fall());
                curve(json, "recovery", slice.recovery());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
        }
        bytes.write('\n');
        return bytes.toByteArray();
    }

    private static void basis(JsonGenerator json, Basis basis) {
        json.writeObjectPropertyStart("basis");
        json.writeStringProperty("build", basis.build());
        json.writeStringProperty("sha256", basis.sha256());
        json.writeBooleanProperty("spreads", basis.spreads());
        json.writeNumberProperty("hold_pa", basis.holdPa());
        json.writeNumberProperty("coldest_c", basis.coldestC());
        json.writeNumberProperty("hottest_c", basis.hottestC());
        Switching s = basis.switching();
        json.writeObjectPropertyStart("switching");
        json.writeNumberProperty("on_rad_per_s", s.onRadPerS());
        json.writeNumberProperty("off_rad_per_s", s.offRadPerS());
        json.writeNumberProperty("pitch_rad", s.pitchRad());
        json.writeNumberProperty("period_s", s.periodS());
        json.writeNumberProperty("late_tick_s", s.lateTickS());
        json.writeNumberProperty("decision_ticks", s.decisionTicks());
        json.writeNumberProperty("close_s", s.closeS());
        json.writeNumberProperty("bounce_s", s.bounceS());
        json.writeNumberProperty("confirm_s", s.confirmS());
        json.writeEndObject();
        json.writeObjectPropertyStart("ranges");
        for (Parameter parameter : Parameter.values()) {
            Bounds bounds = basis.range(parameter);
            json.writeArrayPropertyStart(parameter.key());
            json.writeNumber(bounds.low());
            json.writeNumber(bounds.high());
            json.writeEndArray();
        }
        json.writeEndObject();
        json.writeEndObject();
    }

    private static void curve(JsonGenerator json, String name, Curve curve) {
        json.writeRaw("\n");
        json.writeObjectPropertyStart(name);
        column(json, "time_s", curve.timeS());
        column(json, "line_pa", curve.linePa());
        column(json, "piston_pa", curve.pistonPa());
        column(json, "pump_rad_per_s", curve.pumpRadPerS());
        json.writeEndObject();
    }

    private static void column(JsonGenerator json, String name, double[] values) {
        json.writeArrayPropertyStart(name);
        for (double value : values) {
            json.writeNumber(value);
        }
        json.writeEndArray();
    }

    /**
     * Reads a certificate.
     *
     * @throws IllegalArgumentException with what was found and expected, where it is none
     */
    public static Certificate read(byte[] bytes) {
        JsonNode root;
        try {
            root = MAPPER.readTree(bytes);
        } catch (JacksonException e) {
            throw new IllegalArgumentException("found no JSON, expected a certificate", e);
        }
        if (root.path("schema").asInt(-1) != SCHEMA) {
            throw new IllegalArgumentException(
                    "schema: found " + (root.has("schema") ? root.get("schema") : "nothing") + ", expected " + SCHEMA);
        }
        JsonNode claim = root.path("claim");
        List<Slice> slices = new ArrayList<>();
        for (JsonNode slice : root.path("slices")) {
            slices.add(new Slice(
                    number(slice, "cold_c"),
                    number(slice, "hot_c"),
                    curve(slice.path("fall")),
                    curve(slice.path("recovery"))));
        }
        return new Certificate(
                basis(root.path("basis")),
                new Claim(
                        number(claim, "fall_rad_per_s2"),
                        number(claim, "floor_rad_per_s"),
                        number(claim, "closed_after_s"),
                        number(claim, "lowest_pa")),
                slices);
    }

    private static Basis basis(JsonNode basis) {
        Map<Parameter, Bounds> ranges = new EnumMap<>(Parameter.class);
        for (Parameter parameter : Parameter.values()) {
            double[] ends = column(basis.path("ranges"), parameter.key());
            if (ends.length != 2) {
                throw new IllegalArgumentException(parameter.key() + ": expected a lower and an upper end");
            }
            ranges.put(parameter, new Bounds(ends[0], ends[1]));
        }
        JsonNode s = basis.path("switching");
        return new Basis(
                basis.path("build").asString(""),
                basis.path("sha256").asString(""),
                basis.path("spreads").asBoolean(false),
                ranges,
                new Switching(
                        number(s, "on_rad_per_s"),
                        number(s, "off_rad_per_s"),
                        number(s, "pitch_rad"),
                        number(s, "period_s"),
                        number(s, "late_tick_s"),
                        (int) number(s, "decision_ticks"),
                        number(s, "close_s"),
                        number(s, "bounce_s"),
                        number(s, "confirm_s")),
                number(basis, "hold_pa"),
                number(basis, "coldest_c"),
                number(basis, "hottest_c"));
    }

    private static Curve curve(JsonNode curve) {
        return new Curve(
                column(curve, "time_s"),
                column(curve, "line_pa"),
                column(curve, "piston_pa"),
                column(curve, "pump_rad_per_s"));
    }

    private static double[] column(JsonNode parent, String name) {
        JsonNode values = parent.path(name);
        if (!values.isArray()) {
            throw new IllegalArgumentException(name + ": found no list, expected numbers");
        }
        double[] column = new double[values.size()];
        for (int i = 0; i < column.length; i++) {
            if (!values.get(i).isNumber()) {
                throw new IllegalArgumentException(name + ": found " + values.get(i) + ", expected a number");
            }
            column[i] = values.get(i).asDouble();
        }
        return column;
    }

    private static double number(JsonNode parent, String name) {
        JsonNode value = parent.path(name);
        if (!value.isNumber()) {
            throw new IllegalArgumentException(name + ": found " + value + ", expected a number");
        }
        return value.asDouble();
    }
}
