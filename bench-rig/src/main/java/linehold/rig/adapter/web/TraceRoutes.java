package linehold.rig.adapter.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import linehold.rig.paper.BuildShelf;
import linehold.rig.paper.TraceBook;
import linehold.simulator.build.InputException;
import linehold.simulator.build.UnitSystem;

/** Whole runs of drives, part by part, with any build that can be compared. */
public final class TraceRoutes implements PageServer.Routes {
    private static final int MOST_POINTS = 4000;
    /** Beyond any drive: 30 years. */
    private static final double MOST_S = 1e9;

    private final BuildShelf builds;
    private final TraceBook traces;

    public TraceRoutes(BuildShelf builds, TraceBook traces) {
        this.builds = builds;
        this.traces = traces;
    }

    @Override
    public void addTo(JavalinConfig config) {
        config.routes.get("/api/builds", request -> PageServer.json(request, builds.entries()));
        config.routes.get("/api/drives/{name}/trace", this::trace);
    }

    /** 200 with the run, or 202 with how far it is. */
    private void trace(Context request) {
        double fromS = number(request, "from", -MOST_S, MOST_S);
        double toS = number(request, "to", -MOST_S, MOST_S);
        int points = (int) number(request, "points", 1, MOST_POINTS);
        double oilC = number(request, "oil", -100, 300);
        if (fromS > toS) {
            throw new InputException("from: found " + fromS + " s, expected no later than to, " + toS + " s");
        }
        UnitSystem units = "us".equals(request.queryParam("units")) ? UnitSystem.US : UnitSystem.METRIC;
        TraceBook.Answer answer = traces.ask(
                request.pathParam("name"),
                oilC,
                request.queryParam("build"),
                new TraceBook.Shown(fromS, toS, points, units));
        request.status(answer.run() == null ? 202 : 200);
        PageServer.json(request, answer);
    }

    private static double number(Context request, String key, double least, double most) {
        String given = request.queryParam(key);
        try {
            double value = given == null ? Double.NaN : Double.parseDouble(given);
            if (value >= least && value <= most) {
                return value;
            }
        } catch (NumberFormatException e) {
            throw new InputException(key + ": found no number, expected one from " + least + " to " + most, e);
        }
        throw new InputException(key + ": found " + (given == null ? "nothing" : given) + ", expected a number from "
                + least + " to " + most);
    }

    @Override
    public void close() {
        traces.close();
    }
}
