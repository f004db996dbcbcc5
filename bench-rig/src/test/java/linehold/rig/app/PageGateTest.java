package linehold.rig.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import linehold.rig.adapter.web.BenchRoutes;
import linehold.rig.adapter.web.PageServer;
import linehold.rig.adapter.web.PageSettings;
import linehold.rig.loop.TickRing;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Every route that the rig's page has, whichever part brings it: none can be reached past the gate. */
class PageGateTest {
    private static final String TOKEN = "0123456789abcdef";

    @TempDir
    private Path folder;

    private PageServer server;

    /** @param bench whether procedures can be run there; else a rig in vehicle mode */
    private void start(boolean bench) {
        Build build = BuildFile.loadNamed("demonstration");
        PageSettings guarded = new PageSettings(InetAddress.getLoopbackAddress(), 0, TOKEN, List.of());
        List<PageServer.Routes> parts = bench
                ? PageParts.bench(build, "demonstration", folder, new BenchRoutes(null, true, true), true)
                : PageParts.rig(build, "demonstration", folder, null);
        server = new PageServer(guarded, Map.of("rig", "test"), new TickRing(64), parts);
        server.start();
    }

    @AfterEach
    void stop() {
        server.close();
    }

    private String host() {
        return "127.0.0.1:" + server.port();
    }

    private int status(String route, String host, String... headers) throws IOException {
        String method = route.substring(0, route.indexOf(' '));
        String path = route.substring(route.indexOf(' ') + 1).replaceAll("[{<][^}>]*[}>]", "x");
        boolean socket = method.equals("SOCKET");
        String request = (socket ? "GET" : method) + " " + path + " HTTP/1.1\r\nHost: " + host + "\r\n"
                + (socket
                        ? "Upgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Version: 13\r\n"
                                + "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n"
                        : "Connection: close\r\nContent-Length: 0\r\n")
                + String.join("", List.of(headers)) + "\r\n";
        try (Socket connection = new Socket(InetAddress.getLoopbackAddress(), server.port())) {
            connection.setSoTimeout(10_000);
            OutputStream out = connection.getOutputStream();
            out.write(request.getBytes(StandardCharsets.US_ASCII));
            out.flush();
            String first = new String(connection.getInputStream().readNBytes(12), StandardCharsets.US_ASCII);
            return Integer.parseInt(first.substring(9));
        }
    }

    private static boolean reads(String route) {
        return route.startsWith("GET ") || route.startsWith("HEAD ");
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void shouldLetNobodyWithoutTheTokenReachAnyRoute(boolean bench) throws IOException {
        start(bench);
        List<String> routes = server.routes();
        assertThat(routes)
                .contains(
                        "GET /",
                        "GET /api/facts",
                        "SOCKET /api/live",
                        "POST /api/window/save",
                        "POST /api/live-faults",
                        bench ? "POST /api/bench/start" : "POST /api/bench/{what}");
        String ours = "Origin: http://" + host() + "\r\n";
        for (String route : routes) {
            assertThat(status(route, host(), ours)).as(route).isEqualTo(401);
            assertThat(status(route, host(), ours, "Cookie: linehold-token=0123456789abcdee\r\n"))
                    .as("%s, a wrong token", route)
                    .isEqualTo(401);
        }
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void shouldLetNoOtherPageAndNoOtherNameReachAnyRouteEvenWithTheToken(boolean bench) throws IOException {
        start(bench);
        String cookie = "Cookie: linehold-token=" + TOKEN + "\r\n";
        for (String route : server.routes()) {
            assertThat(status(route, host(), cookie, "Origin: http://evil.example\r\n"))
                    .as("%s, another origin", route)
                    .isEqualTo(403);
            assertThat(status(route, "evil.example:" + server.port(), cookie))
                    .as("%s, another name", route)
                    .isEqualTo(403);
            if (!reads(route)) {
                assertThat(status(route, host(), cookie))
                        .as("%s, no origin", route)
                        .isEqualTo(403);
            }
        }
    }
}
