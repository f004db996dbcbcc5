package linehold.simulator.report;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import linehold.simulator.fault.Fault;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.Coverage;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.LatentFinding;
import linehold.simulator.faults.Outcome;
import linehold.simulator.output.WholeFile;

/**
 * {@code faults.json}: a fault campaign for other programs, always in SI units; docs/faults-json.md describes every
 * field. The same campaign gives the same bytes on every machine and JDK.
 */
public final class FaultsJson {
    /** Grows when a field changes its meaning or goes away, not when one is added. */
    static final int FORMAT = 1;

    private final JsonText json;

    private FaultsJson(JsonText json) {
        this.json = json;
    }

    /** Writes the file, replacing one that is there. */
    public static void write(Campaign campaign, Path file) {
        WholeFile.writeText(file, new String(toBytes(campaign), StandardCharsets.UTF_8));
    }

    /** The file's bytes: UTF-8 text, lines ended by a line feed. */
    public static byte[] toBytes(Campaign campaign) {
        return JsonText.bytes(json -> new FaultsJson(json).campaign(campaign));
    }

    private void campaign(Campaign campaign) {
        json.startObject();
        json.count("format", FORMAT);
        json.flag("covered", campaign.covered());
        json.startObject("build");
        json.text("name", campaign.build().name());
        json.text("description", campaign.build().description());
        json.text("sha256", campaign.build().sha256());
        json.number("hold_pressure_pa", campaign.build().limits().holdPressurePa());
        json.number("safety_factor", campaign.build().limits().safetyFactor());
        json.endObject();
        counts(campaign.singles());
        json.startObject("without_code");
        json.count("noticed_in_time", campaign.withoutCode().size());
        json.count(
                "hold_pressure_lost",
                campaign.withoutCode().stream()
                        .filter(campaign::holdPressureLost)
                        .count());
        json.endObject();
        json.startArray("singles");
        campaign.singles().forEach(this::run);
        json.endArray();
        json.count("pair_runs", campaign.pairRuns());
        json.startArray("pairs");
        campaign.pairs().forEach(this::run);
        json.endArray();
        json.startArray("self_test");
        campaign.selfTest().forEach(this::selfTest);
        json.endArray();
        json.startArray("coverage");
        campaign.coverage().forEach(this::coverage);
        json.endArray();
        json.endObject();
    }

    private void counts(List<FaultRun> singles) {
        json.startObject("single_outcomes");
        for (Outcome outcome : Outcome.values()) {
            json.count(
                    outcome.name().toLowerCase(Locale.ROOT),
                    singles.stream().filter(run -> run.outcome() == outcome).count());
        }
        json.endObject();
    }

    private void run(FaultRun run) {
        Fault fault = run.fault();
        json.startObject();
        json.text("fault", fault.kind().key());
        json.text("title", fault.kind().title());
        json.text("part", fault.kind().part().title());
        json.number("size", fault.size());
        json.number("start_s", fault.startS());
        json.number("end_s", fault.endS());
        json.text("latent", run.latent() == null ? null : run.latent().key());
        json.text("phase", run.phase().key());
        json.text("drive", run.drive());
        json.number("oil_c", run.oilC());
        json.flag("claimed", run.claimed());
        json.text("outcome", run.outcome().name().toLowerCase(Locale.ROOT));
        json.number("noticed_after_s", run.noticedAfterS());
        json.texts("codes", run.codes());
        json.text("state", Words.of(run.state()));
        json.text("permission", Words.of(run.permission()));
        json.number("lowest_pressure_pa", run.lowestPressurePa());
        json.number("lowest_margin", run.lowestMargin());
        json.number("slip_after_s", run.slipAfterS());
        json.number("highest_pressure_pa", run.highestPressurePa());
        json.text("effect", run.effect());
        json.text("reaction", run.reaction());
        json.endObject();
    }

    private void selfTest(LatentFinding finding) {
        json.startObject();
        json.text("fault", finding.kind().key());
        json.flag("found", finding.found());
        json.texts("codes", finding.codes());
        json.endObject();
    }

    private void coverage(Coverage coverage) {
        json.startObject();
        json.text("part", coverage.part().title());
        json.text("technique", coverage.technique());
        json.count("modes", coverage.modes());
        json.count("modes_before_harm", coverage.foundBeforeHarm());
        json.count("runs", coverage.runs());
        json.count("runs_before_harm", coverage.runsBeforeHarm());
        json.text("published", coverage.published());
        json.text("published_source", coverage.publishedSource());
        json.endObject();
    }
}
