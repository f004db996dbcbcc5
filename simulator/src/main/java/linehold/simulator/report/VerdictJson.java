package linehold.simulator.report;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.Gear;
import linehold.simulator.drive.RepairCounts;
import linehold.simulator.output.WholeFile;
import linehold.simulator.prove.Loss;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.prove.Verdict;

/**
 * {@code verdict.json}: a verdict for other programs, always in SI units; docs/verdict-json.md describes every field.
 * The same verdict gives the same bytes on every machine and JDK.
 */
public final class VerdictJson {
    /** Grows when a field changes its meaning or goes away, not when one is added. */
    static final int FORMAT = 1;

    private final JsonText json;

    private VerdictJson(JsonText json) {
        this.json = json;
    }

    /** Writes the file, replacing one that is there. */
    public static void write(Verdict verdict, Path file) {
        WholeFile.writeText(file, new String(toBytes(verdict), StandardCharsets.UTF_8));
    }

    /** The file's bytes: UTF-8 text, lines ended by a line feed. */
    public static byte[] toBytes(Verdict verdict) {
        return JsonText.bytes(json -> new VerdictJson(json).verdict(verdict));
    }

    private void verdict(Verdict verdict) {
        json.startObject();
        json.count("format", FORMAT);
        json.text("verdict", word(verdict.held()));
        json.text("weakest", verdict.weakest());
        build(verdict.build());
        json.startArray("runs");
        verdict.runs().forEach(this::run);
        json.endArray();
        json.endObject();
    }

    private void build(Build build) {
        json.startObject("build");
        json.text("name", build.name());
        json.text("description", build.description());
        json.text("sha256", build.sha256());
        json.number("hold_pressure_pa", build.limits().holdPressurePa());
        json.number("safety_factor", build.limits().safetyFactor());
        json.number("switch_on_rad_per_s", build.calibration().get(Key.SWITCH_ON_SPEED));
        json.number("switch_off_rad_per_s", build.calibration().get(Key.SWITCH_OFF_SPEED));
        json.endObject();
    }

    private void run(RunVerdict run) {
        json.startObject();
        json.text("drive", run.drive());
        json.text("source", run.source());
        json.number("oil_c", run.oilC());
        json.text("verdict", word(run.held()));
        losses(run.losses());
        json.number("duration_s", run.durationS());
        json.number("primed_at_s", run.primedAtS());
        json.number("engaged_pressure_min_pa", run.engagedPressureMinPa());
        json.number("engaged_pressure_min_at_s", run.engagedPressureMinAtS());
        gear("engaged_pressure_min_gear", run.engagedPressureMinGear());
        json.number("settled_pressure_min_pa", run.settledPressureMinPa());
        json.number("settled_pressure_min_at_s", run.settledPressureMinAtS());
        gear("settled_pressure_min_gear", run.settledPressureMinGear());
        json.number("margin_min", run.marginMin());
        json.number("margin_min_at_s", run.marginMinAtS());
        gear("margin_min_gear", run.marginMinGear());
        json.number("below_hold_s", run.belowHoldS());
        json.number("longest_engagement_s", run.longestEngagementS());
        json.number("engagement_limit_s", run.engagementLimitS());
        json.number("refused_s", run.refusedS());
        json.count("relay_operations", run.relayOperations());
        json.number("relay_operations_per_hour", run.relayOperationsPerHour());
        json.number("pump_on_share", run.pumpOnShare());
        json.number("pump_energy_j", run.pumpEnergyJ());
        json.count("hand_overs", run.handOvers());
        json.number("air_drawn_m3", run.airDrawnM3());
        json.texts("codes", run.codes());
        repairs(run.repairs());
        json.texts("warnings", run.warnings());
        json.text("weakest", run.weakest());
        json.endObject();
    }

    private void losses(List<Loss> losses) {
        json.startArray("losses");
        for (Loss loss : losses) {
            json.startObject();
            json.text("criterion", word(loss.criterion()));
            json.number("at_s", loss.atS());
            json.text("cause", loss.cause());
            json.endObject();
        }
        json.endArray();
    }

    private void repairs(RepairCounts repairs) {
        json.startObject("repairs");
        json.count("skipped_lines", repairs.skippedLines());
        json.count("duplicate_rows", repairs.duplicateRows());
        json.count("backward_rows", repairs.backwardRows());
        json.count("empty_cells", repairs.emptyCells());
        json.flag("ended_by_gap", repairs.endedByGap());
        json.number("ended_at_s", repairs.endedAtS());
        json.number("start_put_before_s", repairs.startPutBeforeS());
        json.endObject();
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

    private void gear(String name, Gear gear) {
        json.text(name, gear == null ? null : Words.of(gear));
    }
}
