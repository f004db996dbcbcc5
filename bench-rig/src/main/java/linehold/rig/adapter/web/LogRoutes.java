package linehold.rig.adapter.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.BadRequestResponse;
import io.javalin.http.Context;
import java.util.List;
import java.util.concurrent.Semaphore;
import java.util.function.Supplier;
import linehold.rig.paper.LogUpload;
import linehold.rig.paper.OwnLogs;
import linehold.simulator.drive.LogPicks;

/** Own logs and recordings: taken in, mapped, removed. */
public final class LogRoutes implements PageServer.Routes {
    /** Each takes a thread of the server and writes to its medium. */
    private static final int MOST_AT_ONCE = 2;

    private final OwnLogs logs;
    private final Semaphore writing = new Semaphore(MOST_AT_ONCE);

    public LogRoutes(OwnLogs logs) {
        this.logs = logs;
    }

    private record Shown(long mostBytes, List<LogPicks.Field> fields, List<OwnLogs.Log> logs) {}

    /** The answer where a log has changed. */
    private record Changed(String file) {}

    @Override
    public void addTo(JavalinConfig config) {
        config.routes.get(
                "/api/logs",
                request ->
                        PageServer.json(request, new Shown(logs.limits().mostBytes(), LogPicks.fields(), logs.logs())));
        config.routes.post("/api/logs", this::add);
        config.routes.delete("/api/logs/{file}", request -> {
            String file = request.pathParam("file");
            logs.remove(file);
            PageServer.json(request, new Changed(file));
        });
        config.routes.get(
                "/api/logs/{file}/mapping",
                request -> PageServer.json(request, logs.preview(request.pathParam("file"), null)));
        config.routes.post(
                "/api/logs/{file}/preview",
                request -> PageServer.json(request, logs.preview(request.pathParam("file"), picks(request))));
        config.routes.post("/api/logs/{file}/mapping", request -> {
            String file = request.pathParam("file");
            logs.map(file, picks(request));
            PageServer.json(request, new Changed(file));
        });
        config.routes.get("/api/recordings", request -> PageServer.json(request, logs.recordings()));
        config.routes.post("/api/recordings/{id}", this::take);
        config.routes.exception(LogUpload.SenderGoneException.class, (gone, request) -> {
            request.status(408);
            PageServer.json(request, new PageServer.Problem(gone.getMessage()));
        });
        config.routes.exception(LogUpload.TooLargeException.class, (large, request) -> {
            request.status(413);
            PageServer.json(request, new PageServer.Problem(large.getMessage()));
        });
    }

    private static LogPicks picks(Context request) {
        return PageServer.body(request, LogPicks.class);
    }

    /** The body is the log itself; it is written as it comes, whatever its size. */
    private void add(Context request) {
        String name = request.queryParam("name");
        if (name == null || name.isBlank()) {
            throw new BadRequestResponse("expected the name of the log");
        }
        oneOfFew(request, () -> logs.add(name, request.req().getContentLengthLong(), request.bodyInputStream()));
    }

    private void take(Context request) {
        long id;
        try {
            id = Long.parseLong(request.pathParam("id"));
        } catch (NumberFormatException e) {
            throw new BadRequestResponse("expected the number of a recording");
        }
        oneOfFew(request, () -> logs.take(id));
    }

    private void oneOfFew(Context request, Supplier<String> work) {
        if (!writing.tryAcquire()) {
            request.status(429);
            PageServer.json(request, new PageServer.Problem("other logs are coming in; try again when they are there"));
            return;
        }
        try {
            Changed changed = new Changed(work.get());
            request.status(201);
            PageServer.json(request, changed);
        } finally {
            writing.release();
        }
    }
}
