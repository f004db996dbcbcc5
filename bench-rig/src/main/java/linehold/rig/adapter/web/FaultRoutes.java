package linehold.rig.adapter.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.util.Arrays;
import java.util.List;
import linehold.rig.paper.FaultTable;
import linehold.rig.paper.FaultTrace;
import linehold.simulator.build.InputException;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.Outcome;

/** The table of the fault campaign, and one run of it in charts. */
public final class FaultRoutes implements PageServer.Routes {
    private final FaultTable table;

    public FaultRoutes(FaultTable table) {
        this.table = table;
    }

    /** @param outcomes from harmless to worst, in words */
    record Table(FaultTable.Progress progress, List<String> outcomes, List<Row> rows) {}

    /** A run in SI; null where there is no such time, or no such pressure. {@code rank} is the place among the outcomes. */
    record Row(
            String fault,
            String title,
            String size,
            String part,
            String phase,
            String phaseTitle,
            int phaseRank,
            double oilC,
            String drive,
            int rank,
            boolean claimed,
            boolean covered,
            double startS,
            Double noticedAfterS,
            Double slipAfterS,
            Double lowestPa,
            Double highestPa,
            List<String> codes) {
        static Row of(FaultRun run) {
            return new Row(
                    run.fault().kind().key(),
                    run.fault().kind().title(),
                    run.fault().kind().usualSizeText(),
                    run.fault().kind().part().title(),
                    run.phase().key(),
                    run.phase().title(),
                    run.phase().ordinal(),
                    run.oilC(),
                    run.drive(),
                    run.outcome().ordinal(),
                    run.claimed(),
                    run.outcome().covered(),
                    run.fault().startS(),
                    known(run.noticedAfterS()),
                    known(run.slipAfterS()),
                    known(run.lowestPressurePa()),
                    known(run.highestPressurePa()),
                    run.codes());
        }

        private static Double known(double value) {
            return Double.isFinite(value) ? value : null;
        }
    }

    /** @param units {@code us}, or anything else for metric */
    record Wanted(String fault, String phase, double oilC, String units) {}

    record Story(Row run, String effect, String reaction, List<String> engagements, FaultTrace trace) {}

    @Override
    public void addTo(JavalinConfig config) {
        config.routes.get("/api/faults", request -> PageServer.json(request, answer()));
        config.routes.get("/api/faults/progress", request -> PageServer.json(request, table.progress()));
        config.routes.post("/api/faults/start", request -> {
            table.start();
            PageServer.json(request, table.progress());
        });
        config.routes.post("/api/faults/run", this::story);
    }

    private Table answer() {
        return new Table(
                table.progress(),
                Arrays.stream(Outcome.values()).map(Outcome::title).toList(),
                table.runs().stream().map(Row::of).toList());
    }

    private void story(Context request) {
        Wanted wanted = PageServer.body(request, Wanted.class);
        if (wanted.fault == null || wanted.phase == null) {
            throw new InputException("run: expected a fault, a phase and an oil temperature");
        }
        UnitSystem units = "us".equals(wanted.units) ? UnitSystem.US : UnitSystem.METRIC;
        FaultTable.Story story = table.story(PageServer.asker(request), wanted.fault, wanted.phase, wanted.oilC, units);
        PageServer.json(
                request,
                new Story(
                        Row.of(story.run()),
                        story.run().effect(),
                        story.run().reaction(),
                        FaultTrace.engagements(),
                        story.trace()));
    }

    @Override
    public void close() {
        table.close();
    }
}
