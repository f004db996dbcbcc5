package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import linehold.simulator.build.InputException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Raw bytes over a socket: a browser or a client library would put many of these right before they are sent. */
class GateTest {
    private FastRig rig;
    private PageServer server;

    @BeforeEach
    void start() {
        rig = new FastRig("stop-and-go", 1).start();
        server = new PageServer(PageSettings.loopback(0), Map.of("rig", "test"), rig.ring, List.of());
        server.start();
    }

    @AfterEach
    void stop() throws InterruptedException {
        server.close();
        rig.close();
    }

    /** What comes back, or nothing where the connection is just closed. */
    private static String raw(int port, String request) throws IOException {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
            socket.setSoTimeout(5000);
            OutputStream out = socket.getOutputStream();
            try {
                out.write(request.getBytes(StandardCharsets.ISO_8859_1));
                out.flush();
                return answer(socket.getInputStream(), request.contains("Upgrade: "));
            } catch (SocketException closed) {
                return "";
            }
        }
    }

    /** All of it, but of a connection that stays open only what comes first. */
    private static String answer(InputStream in, boolean staysOpen) throws IOException {
        byte[] bytes = new byte[4000];
        int length = Math.max(0, in.read(bytes));
        String first = new String(bytes, 0, length, StandardCharsets.ISO_8859_1);
        return staysOpen
                ? first
                : first + new String(in.readNBytes(bytes.length - length), StandardCharsets.ISO_8859_1);
    }

    private String get(String path, String... headers) throws IOException {
        return raw(
                server.port(),
                "GET " + path + " HTTP/1.1\r\n" + String.join("\r\n", headers) + (headers.length > 0 ? "\r\n" : "")
                        + "Connection: close\r\n\r\n");
    }

    private String host() {
        return "Host: 127.0.0.1:" + server.port();
    }

    private static int status(String answer) {
        return answer.startsWith("HTTP/1.1 ") ? Integer.parseInt(answer.substring(9, 12)) : 0;
    }

    @Test
    void shouldServeThePageToItsOwnHost() throws IOException {
        String answer = get("/", host());
        assertThat(status(answer)).isEqualTo(200);
        assertThat(answer)
                .contains("Content-Security-Policy: default-src 'none'")
                .doesNotContain("Server:");
        assertThat(status(get("/page/main.js", host()))).isEqualTo(200);
        assertThat(status(get("/lib/uPlot.js", host()))).isEqualTo(200);
        assertThat(get("/api/facts", host(), "Origin: http://127.0.0.1:" + server.port()))
                .contains("{\"rig\":\"test\"}");
    }

    @ParameterizedTest
    @ValueSource(strings = {"evil.example", "evil.example:PORT", "127.0.0.1", "localhost.evil.example:PORT", ""})
    void shouldRefuseEveryNameThatIsNotOurs(String name) throws IOException {
        String host = "Host: " + name.replace("PORT", String.valueOf(server.port()));
        assertThat(status(get("/api/facts", host))).isBetween(400, 403);
    }

    @Test
    void shouldRefuseAnotherOriginEvenForReading() throws IOException {
        assertThat(status(get("/api/facts", host(), "Origin: http://evil.example")))
                .isEqualTo(403);
        assertThat(status(get("/api/facts", host(), "Origin: null"))).isEqualTo(403);
    }

    @Test
    void shouldRefuseToChangeAnythingForWhoeverHidesItsOrigin() throws IOException {
        String post = "POST /api/facts HTTP/1.1\r\n" + host() + "\r\nContent-Length: 0\r\nConnection: close\r\n";
        assertThat(status(raw(server.port(), post + "\r\n"))).isEqualTo(403);
        String ours = post + "Origin: http://127.0.0.1:" + server.port() + "\r\n\r\n";
        assertThat(status(raw(server.port(), ours))).isIn(404, 405);
    }

    @Test
    void shouldOpenTheLiveSocketForItsOwnPageAlone() throws IOException {
        String upgrade = "GET /api/live HTTP/1.1\r\n" + host() + "\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n"
                + "Sec-WebSocket-Version: 13\r\nSec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n";
        assertThat(status(raw(server.port(), upgrade + "\r\n"))).isEqualTo(403);
        assertThat(status(raw(server.port(), upgrade + "Origin: http://evil.example\r\n\r\n")))
                .isEqualTo(403);
        String ours = upgrade + "Origin: http://127.0.0.1:" + server.port() + "\r\n\r\n";
        assertThat(status(raw(server.port(), ours))).isEqualTo(101);
    }

    @Test
    void shouldAskForTheTokenWhereOneIsNeeded() throws IOException {
        PageSettings open = new PageSettings(InetAddress.getLoopbackAddress(), 0, "0123456789abcdef", List.of());
        try (PageServer guarded = new PageServer(open, Map.of(), null, List.of())) {
            guarded.start();
            String host = "Host: 127.0.0.1:" + guarded.port();
            String head = " HTTP/1.1\r\n" + host + "\r\nConnection: close\r\n";
            assertThat(status(raw(guarded.port(), "GET /" + head + "\r\n"))).isEqualTo(401);
            assertThat(status(raw(guarded.port(), "GET /?token=0123456789abcdee" + head + "\r\n")))
                    .isEqualTo(401);
            assertThat(status(raw(guarded.port(), "GET /page/main.js?token=0123456789abcdef" + head + "\r\n")))
                    .isEqualTo(401);
            String opened = raw(guarded.port(), "GET /?token=0123456789abcdef" + head + "\r\n");
            assertThat(status(opened)).isEqualTo(200);
            assertThat(opened).contains("HttpOnly").contains("SameSite=Strict");
            String cookie = "Cookie: linehold-token=0123456789abcdef\r\n\r\n";
            assertThat(status(raw(guarded.port(), "GET /api/facts" + head + cookie)))
                    .isEqualTo(200);
        }
    }

    @Test
    void shouldSayWhichPortIsTaken() {
        try (PageServer second = new PageServer(PageSettings.loopback(server.port()), Map.of(), null, List.of())) {
            assertThatThrownBy(second::start)
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining(String.valueOf(server.port()));
        }
    }

    private String hostile(SplittableRandom random) {
        String head = host() + "\r\nConnection: close\r\n";
        return switch (random.nextInt(9)) {
            case 0 -> "GET /page/..%2f..%2fetc%2fpasswd HTTP/1.1\r\n" + head + "\r\n";
            case 1 -> "GET /../../../../etc/passwd HTTP/1.1\r\n" + head + "\r\n";
            case 2 -> "GET /page/" + "a".repeat(1 + random.nextInt(20_000)) + " HTTP/1.1\r\n" + head + "\r\n";
            case 3 -> "GET / HTTP/1.1\r\n" + head + "X: " + "x".repeat(9000 + random.nextInt(9000)) + "\r\n\r\n";
            case 4 ->
                "GET /api/facts HTTP/1.1\r\nHost: evil" + random.nextInt() + ".example\r\nConnection: close\r\n\r\n";
            case 5 -> "POST /api/facts HTTP/1.1\r\n" + head + "Content-Length: 99999999999\r\n\r\n";
            case 6 -> garbage(random) + "\r\n\r\n";
            case 7 -> "BREW /api/live HTTP/1.1\r\n" + head + "\r\n";
            default ->
                "POST /api/facts HTTP/1.1\r\n" + head + "Origin: http://127.0.0.1:" + server.port()
                        + "\r\nTransfer-Encoding: chunked\r\n\r\n" + garbage(random);
        };
    }

    private static String garbage(SplittableRandom random) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 1 + random.nextInt(300); i++) {
            text.append((char) (1 + random.nextInt(255)));
        }
        return text.toString();
    }

    /** Seed 6; whoever sends slowly is told by the idle time-out, which {@link #shouldNotWaitForWhoeverSendsNothing} has. */
    @Test
    void shouldAnswerAThousandHostileRequestsWithARefusalAndGoOnTicking() throws IOException {
        SplittableRandom random = new SplittableRandom(6);
        long before = rig.ring.published();
        for (int i = 0; i < 1000; i++) {
            String request = hostile(random);
            int status = status(raw(server.port(), request));
            // Bytes that are no request at all may be answered by closing the connection.
            assertThat(status)
                    .as("request %d: %s", i, request.substring(0, Math.min(80, request.length())))
                    .satisfiesAnyOf(
                            s -> assertThat(s).isBetween(400, 499),
                            s -> assertThat(s).isIn(0, 501, 505));
        }
        assertThat(rig.running()).isTrue();
        assertThat(rig.ring.published()).isGreaterThan(before + 20);
        assertThat(status(get("/api/facts", host()))).isEqualTo(200);
    }

    @Test
    void shouldNotWaitForWhoeverSendsNothing() throws IOException {
        Socket[] silent = new Socket[40];
        for (int i = 0; i < silent.length; i++) {
            silent[i] = new Socket(InetAddress.getLoopbackAddress(), server.port());
            silent[i].getOutputStream().write("GET / HT".getBytes(StandardCharsets.US_ASCII));
        }
        try {
            assertThat(status(get("/api/facts", host()))).isEqualTo(200);
            silent[0].setSoTimeout(50);
            assertThatThrownBy(() -> silent[0].getInputStream().read()).isInstanceOf(SocketTimeoutException.class);
        } finally {
            for (Socket socket : silent) {
                socket.close();
            }
        }
    }
}
