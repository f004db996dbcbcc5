package linehold.rig.adapter.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.util.List;
import linehold.rig.paper.DriveBook;
import linehold.simulator.build.InputException;

/** Drives, the verdicts on them and their whole runs. */
public final class DriveRoutes implements PageServer.Routes {
    private static final int MOST_POINTS = 4000;

    private final DriveBook book;

    public DriveRoutes(DriveBook book) {
        this.book = book;
    }

    private record Shown(List<Double> oilC, List<DriveBook.Entry> drives) {}

    @Override
    public void addTo(JavalinConfig config) {
        config.routes.get("/api/drives", request -> PageServer.json(request, new Shown(book.oilC(), book.entries())));
        config.routes.get("/api/drives/{name}/trace", this::trace);
    }

    @Override
    public void close() {
        book.close();
    }

    private void trace(Context request) {
        double fromS = number(request, "from", -1e9, 1e9);
        double toS = number(request, "to", -1e9, 1e9);
        int points = (int) number(request, "points", 1, MOST_POINTS);
        double oilC = number(request, "oil", -100, 300);
        if (fromS > toS) {
            throw new InputException("from: found " + fromS + " s, expected no later than to, " + toS + " s");
        }
        PageServer.json(request, book.trace(request.pathParam("name"), oilC).part(fromS, toS, points));
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
}
