package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Whoever asks slowly, and many of them at once: the rig ticks on, and the page answers others. */
class SlowClientsTest {
    /** More than the server has threads. */
    private static final int SLOW_BODIES = 40;

    private final List<Socket> slow = new ArrayList<>();
    private FastRig rig;
    private PageServer server;

    @BeforeEach
    void start() {
        rig = new FastRig("stop-and-go", 1).start();
        PageServer.Routes taking = config -> config.routes.post("/api/taking", request -> {
            byte[] body = request.bodyAsBytes();
            PageServer.json(request, Map.of("bytes", body.length));
        });
        server = new PageServer(PageSettings.loopback(0), Map.of("rig", "test"), rig.ring, List.of(taking));
        server.start();
    }

    @AfterEach
    void stop() throws Exception {
        for (Socket socket : slow) {
            socket.close();
        }
        server.close();
        rig.close();
    }

    private String host() {
        return "Host: 127.0.0.1:" + server.port() + "\r\n";
    }

    private Socket open(String said) throws IOException {
        Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port());
        slow.add(socket);
        socket.getOutputStream().write(said.getBytes(StandardCharsets.US_ASCII));
        return socket;
    }

    private void assertThatOthersAreServedAndTheRigTicks(long ticksBefore) throws IOException {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port())) {
            socket.setSoTimeout(60_000);
            socket.getOutputStream()
                    .write(("GET /api/facts HTTP/1.1\r\n" + host() + "Connection: close\r\n\r\n")
                            .getBytes(StandardCharsets.US_ASCII));
            String answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.ISO_8859_1);
            assertThat(answer).startsWith("HTTP/1.1 200 ");
        }
        assertThat(rig.running()).isTrue();
        assertThat(rig.ring.published()).isGreaterThan(ticksBefore);
    }

    @Test
    void shouldServeOthersBesideMoreHalfOpenConnectionsThanItTakes() throws IOException {
        long before = rig.ring.published();
        for (int i = 0; i < PageServer.MOST_CONNECTIONS + 100; i++) {
            switch (i % 3) {
                case 0 -> open("");
                case 1 -> open("GET /api/facts HTTP/1.1\r\nHost: 127");
                default -> open("GET /api/facts HTTP/1.1\r\n" + host() + "X-Slow: ");
            }
        }
        assertThatOthersAreServedAndTheRigTicks(before);
    }

    @Test
    void shouldServeOthersBesideMoreSlowBodiesThanItHasThreads() throws IOException {
        long before = rig.ring.published();
        String head = "POST /api/taking HTTP/1.1\r\n" + host() + "Origin: http://127.0.0.1:" + server.port()
                + "\r\nContent-Length: 100000\r\n\r\n{";
        for (int i = 0; i < SLOW_BODIES; i++) {
            open(head);
        }
        Thread trickle = new Thread(this::trickle, "trickle");
        trickle.setDaemon(true);
        trickle.start();
        assertThatOthersAreServedAndTheRigTicks(before);
    }

    /** A byte now and then keeps every time-out away. */
    private void trickle() {
        while (!Thread.currentThread().isInterrupted()) {
            for (Socket socket : List.copyOf(slow)) {
                try {
                    socket.getOutputStream().write(' ');
                } catch (IOException closed) {
                    // It was ended by the server, which is what is wanted.
                }
            }
            if (slow.stream().allMatch(Socket::isClosed)) {
                return;
            }
            try {
                Thread.sleep(100);
            } catch (InterruptedException e) {
                return;
            }
        }
    }
}
