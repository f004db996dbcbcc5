package linehold.rig.adapter.web;

import io.javalin.config.JavalinConfig;
import java.util.List;
import linehold.rig.paper.DriveBook;

/** Drives and the verdicts on them. */
public final class DriveRoutes implements PageServer.Routes {
    private final DriveBook book;

    public DriveRoutes(DriveBook book) {
        this.book = book;
    }

    private record Shown(List<Double> oilC, List<DriveBook.Entry> drives) {}

    @Override
    public void addTo(JavalinConfig config) {
        config.routes.get("/api/drives", request -> PageServer.json(request, new Shown(book.oilC(), book.entries())));
    }

    @Override
    public void close() {
        book.close();
    }
}
