package linehold.rig.adapter.web;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.http.BadRequestResponse;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import io.javalin.websocket.WsHandlerType;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
import linehold.rig.loop.TickRing;
import linehold.rig.paper.Worker;
import linehold.simulator.build.InputException;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.NetworkConnectionLimit;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.json.JsonMapper;

/**
 * The bench page: static files from the jar, and a few answers in JSON. Each part of the page brings its own
 * {@link Routes}.
 */
public final class PageServer implements AutoCloseable {
    /** Bodies above this are refused before they are read; a log that is dropped has a route of its own. */
    private static final long LARGEST_BODY_BYTES = 1 << 20;

    private static final int THREADS = 24;
    /** A connection that says nothing for so long is closed. */
    private static final long IDLE_MS = 10_000;
    /** More wait to be let in; while they do, a connection that says nothing is closed sooner. Files stay for the recorder. */
    static final int MOST_CONNECTIONS = 200;

    private static final long CROWDED_IDLE_MS = 2000;
    /** A body that comes slower holds a thread for nothing. Low, because the server's own pauses count as the sender's. */
    private static final long LEAST_BODY_BYTES_PER_S = 20;
    /** What the kernel keeps for one who reads slowly: more would only be older news. */
    private static final int SEND_BUFFER_BYTES = 1 << 16;

    static final JsonMapper JSON = JsonMapper.builder().build();

    private final PageSettings settings;
    private final Javalin server;
    private final LiveFeed live;
    private final List<Routes> parts;

    /** One part of the page. */
    public interface Routes extends AutoCloseable {
        void addTo(JavalinConfig config);

        /** Ends what the part has running, when the server ends; more than once does no harm. */
        @Override
        default void close() {}
    }

    /**
     * @param facts what the page must know of build and rig, as a value that JSON can show
     * @param ring the rig's ticks; null where there is no rig
     */
    public PageServer(PageSettings settings, Object facts, TickRing ring, List<Routes> parts) {
        this.settings = settings;
        this.parts = List.copyOf(parts);
        live = ring == null ? null : new LiveFeed(ring);
        Gate gate = new Gate(settings, this::port);
        server = Javalin.create(config -> {
            config.startup.showJavalinBanner = false;
            config.startup.showOldJavalinVersionWarning = false;
            config.http.maxRequestSize = LARGEST_BODY_BYTES;
            config.http.defaultContentType = "text/plain; charset=utf-8";
            config.jetty.threadPool = new QueuedThreadPool(THREADS, 4);
            config.jetty.addConnector(this::connector);
            config.jetty.modifyServer(jetty -> jetty.addBean(connectionLimit(jetty)));
            config.routes.before(gate::check);
            config.routes.get("/", StaticFiles::index);
            config.routes.get("/page/<file>", StaticFiles::page);
            config.routes.get("/lib/<file>", StaticFiles::library);
            config.routes.get("/api/facts", request -> json(request, facts));
            addLive(config, gate);
            parts.forEach(part -> part.addTo(config));
            config.routes.exception(InputException.class, (bad, request) -> {
                request.status(422);
                json(request, new Problem(bad.getMessage()));
            });
            config.routes.exception(Worker.BusyException.class, (busy, request) -> {
                request.status(429);
                json(request, new Problem(busy.getMessage()));
            });
            config.routes.exception(CancellationException.class, (past, request) -> {
                request.status(409);
                json(request, new Problem("something newer was asked for instead"));
            });
        });
    }

    private ServerConnector connector(Server jetty, HttpConfiguration http) {
        http.setSendServerVersion(false);
        http.setRequestHeaderSize(8192);
        http.setIdleTimeout(IDLE_MS);
        http.setMinRequestDataRate(LEAST_BODY_BYTES_PER_S);
        ServerConnector connector = new ServerConnector(jetty, 1, 1, new HttpConnectionFactory(http));
        connector.setHost(settings.address().getHostAddress());
        connector.setPort(settings.port());
        connector.setIdleTimeout(IDLE_MS);
        connector.setAcceptedSendBufferSize(SEND_BUFFER_BYTES);
        return connector;
    }

    private static NetworkConnectionLimit connectionLimit(Server jetty) {
        NetworkConnectionLimit limit = new NetworkConnectionLimit(MOST_CONNECTIONS, jetty);
        limit.setEndPointIdleTimeout(CROWDED_IDLE_MS);
        return limit;
    }

    /** What a request gets that cannot be answered. */
    record Problem(String problem) {}

    /** What the page sends, as a value; anything else is refused. */
    static <T> T body(Context request, Class<T> type) {
        try {
            T value = JSON.readValue(request.bodyAsBytes(), type);
            if (value != null) {
                return value;
            }
        } catch (JacksonException e) {
            throw new BadRequestResponse("this is not what the page sends");
        }
        throw new BadRequestResponse("this is not what the page sends");
    }

    /** Answers with a value as JSON. */
    public static void json(Context request, Object value) {
        request.contentType("application/json").result(JSON.writeValueAsBytes(value));
    }

    /** Which open page asks, by its own word: what it asks later takes the place of what it asked before; null if unsaid. */
    static String asker(Context request) {
        return request.header("Page-Id");
    }

    private void addLive(JavalinConfig config, Gate gate) {
        config.routes.wsBeforeUpgrade("/api/live", gate::checkSocket);
        config.routes.ws("/api/live", socket -> {
            socket.onConnect(viewer -> {
                if (live == null) {
                    viewer.closeSession(1008, "no rig is running");
                    return;
                }
                viewer.enableAutomaticPings();
                if (!live.join(LiveFeed.Socket.of(viewer))) {
                    viewer.closeSession(1013, "too many are looking already");
                }
            });
            socket.onClose(viewer -> {
                if (live != null) {
                    live.leave(LiveFeed.Socket.of(viewer));
                }
            });
            // The page is told, it does not tell: a message that comes up this socket has no meaning.
            socket.onMessage(viewer -> viewer.closeSession(1008, "nothing is taken here"));
        });
        if (live == null) {
            config.routes.get("/api/live", request -> {
                throw new NotFoundResponse("no rig is running");
            });
        }
    }

    /** @throws InputException where the address is taken */
    public void start() {
        try {
            server.start();
        } catch (RuntimeException e) {
            throw new InputException(
                    "page: " + settings.address().getHostAddress() + ":" + settings.port()
                            + " cannot be opened, expected a free port: " + e.getMessage(),
                    e);
        }
        FirstVisit.start(settings, server.port());
        if (live != null) {
            live.start();
        }
    }

    /** All that is served, such as {@code GET /api/facts}; a socket is {@code SOCKET}. */
    public List<String> routes() {
        Stream<String> requests = server.unsafe.internalRouter.allHttpHandlers().stream()
                .filter(handler -> handler.endpoint.method.isHttpMethod())
                .map(handler -> handler.endpoint.method.name() + " " + handler.endpoint.path);
        Stream<String> sockets = server.unsafe.internalRouter.allWsHandlers().stream()
                .filter(handler -> handler.getType() == WsHandlerType.WEBSOCKET)
                .map(handler -> "SOCKET " + handler.getPath());
        return Stream.concat(requests, sockets).sorted().toList();
    }

    /** How many look at the live feed. */
    int viewers() {
        return live == null ? 0 : live.viewers();
    }

    public int port() {
        return server.port();
    }

    /** What to type into a browser. */
    public String address() {
        return "http://" + PageSettings.hostName(settings.address()) + ":" + port() + "/"
                + (settings.token() == null ? "" : "?token=" + settings.token());
    }

    @Override
    public void close() {
        if (live != null) {
            live.close();
        }
        // First, so that no answer waits for work that has ended.
        parts.forEach(Routes::close);
        server.stop();
    }
}
