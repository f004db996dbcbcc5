package linehold.simulator.report;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import linehold.simulator.build.Build;
import linehold.simulator.build.Gear;
import linehold.simulator.drive.RepairCounts;
import linehold.simulator.output.WholeFile;
import linehold.simulator.prove.Loss;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.prove.Verdict;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.core.util.DefaultIndenter;
import tools.jackson.core.util.DefaultPrettyPrinter;
import tools.jackson.databind.ObjectWriter;
import tools.jackson.databind.json.JsonMapper;

/**
 * {@code verdict.json}: a verdict for other programs, always in SI units; docs/verdict-json.md describes every field.
 * The same verdict gives the same bytes on every machine and JDK.
 */
public final class VerdictJson {
    /** Grows when a field changes its meaning or goes away, not when one is added. */
    static final int FORMAT = 1;

    private static final ObjectWriter WRITER = JsonMapper.builder()
            .build()
            .writer()
            .with(prettyPrinter())
            // Double.toString is not the shortest before JDK 19; this writer is, and is the same on all of them.
            .with(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
            .with(StreamWriteFeature.STRICT_DUPLICATE_DETECTION);

    private final JsonGenerator json;

    private VerdictJson(JsonGenerator json) {
        this.json = json;
    }

    /** Writes the file, replacing one that is there. */
    public static void write(Verdict verdict, Path file) {
        WholeFile.writeText(file, new String(toBytes(verdict), StandardCharsets.UTF_8));
    }

    /** The file's bytes: UTF-8 text, lines ended by a line feed. */
    public static byte[] toBytes(Verdict verdict) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (JsonGenerator generator = WRITER.createGenerator(bytes)) {
            new VerdictJson(generator).verdict(verdict);
        }
        bytes.write('\n');
        return bytes.toByteArray();
    }

    private static DefaultPrettyPrinter prettyPrinter() {
        DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
        return new DefaultPrettyPrinter().withObjectIndenter(indenter).withArrayIndenter(indenter);
    }

    private void verdict(Verdict verdict) {
        json.writeStartObject();
        json.writeNumberProperty("format", FORMAT);
        json.writeStringProperty("verdict", word(verdict.held()));
        text("weakest", verdict.weakest());
        build(verdict.build());
        json.writeArrayPropertyStart("runs");
        verdict.runs().forEach(this::run);
        json.writeEndArray();
        json.writeEndObject();
    }

    private void build(Build build) {
        json.writeObjectPropertyStart("build");
        text("name", build.name());
        text("description", build.description());
        text("sha256", build.sha256());
        number("hold_pressure_pa", build.limits().holdPressurePa());
        number("safety_factor", build.limits().safetyFactor());
        json.writeEndObject();
    }

    private void run(RunVerdict run) {
        json.writeStartObject();
        text("drive", run.drive());
        text("source", run.source());
        number("oil_c", run.oilC());
        json.writeStringProperty("verdict", word(run.held()));
        losses(run.losses());
        number("duration_s", run.durationS());
        number("primed_at_s", run.primedAtS());
        number("engaged_pressure_min_pa", run.engagedPressureMinPa());
        number("engaged_pressure_min_at_s", run.engagedPressureMinAtS());
        gear("engaged_pressure_min_gear", run.engagedPressureMinGear());
        number("settled_pressure_min_pa", run.settledPressureMinPa());
        number("settled_pressure_min_at_s", run.settledPressureMinAtS());
        gear("settled_pressure_min_gear", run.settledPressureMinGear());
        number("margin_min", run.marginMin());
        number("margin_min_at_s", run.marginMinAtS());
        gear("margin_min_gear", run.marginMinGear());
        number("below_hold_s", run.belowHoldS());
        number("longest_engagement_s", run.longestEngagementS());
        number("engagement_limit_s", run.engagementLimitS());
        number("refused_s", run.refusedS());
        json.writeNumberProperty("relay_operations", run.relayOperations());
        number("relay_operations_per_hour", run.relayOperationsPerHour());
        number("pump_on_share", run.pumpOnShare());
        number("pump_energy_j", run.pumpEnergyJ());
        json.writeNumberProperty("hand_overs", run.handOvers());
        number("air_drawn_m3", run.airDrawnM3());
        texts("codes", run.codes());
        repairs(run.repairs());
        texts("warnings", run.warnings());
        text("weakest", run.weakest());
        json.writeEndObject();
    }

    private void losses(List<Loss> losses) {
        json.writeArrayPropertyStart("losses");
        for (Loss loss : losses) {
            json.writeStartObject();
            json.writeStringProperty("criterion", word(loss.criterion()));
            number("at_s", loss.atS());
            text("cause", loss.cause());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void repairs(RepairCounts repairs) {
        json.writeObjectPropertyStart("repairs");
        json.writeNumberProperty("skipped_lines", repairs.skippedLines());
        json.writeNumberProperty("duplicate_rows", repairs.duplicateRows());
        json.writeNumberProperty("backward_rows", repairs.backwardRows());
        json.writeNumberProperty("empty_cells", repairs.emptyCells());
        json.writeBooleanProperty("ended_by_gap", repairs.endedByGap());
        number("ended_at_s", repairs.endedAtS());
        number("start_put_before_s", repairs.startPutBeforeS());
        json.writeEndObject();
    }

    private static String word(boolean held) {
        return held ? "held" : "lost";
    }

    private static String word(Loss.Criterion criterion) {
        return switch (criterion) {
            case NEVER_PRIMED -> "never_primed";
            case PRESSURE_LOST -> "pressure_lost";
            case MARGIN_LOST -> "margin_lost";
            case ENGAGEMENT_LATE -> "engagement_late";
            case DRIVE_REFUSED -> "drive_refused";
        };
    }

    /** JSON knows neither NaN nor infinity: both mean "never", and never is null. */
    private void number(String name, double value) {
        if (Double.isFinite(value)) {
            json.writeNumberProperty(name, value);
        } else {
            json.writeNullProperty(name);
        }
    }

    private void text(String name, String value) {
        if (value == null) {
            json.writeNullProperty(name);
        } else {
            json.writeStringProperty(name, value);
        }
    }

    private void texts(String name, List<String> values) {
        json.writeArrayPropertyStart(name);
        values.forEach(json::writeString);
        json.writeEndArray();
    }

    private void gear(String name, Gear gear) {
        text(name, gear == null ? null : Words.of(gear));
    }
}
