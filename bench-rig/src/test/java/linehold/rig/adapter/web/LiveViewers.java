package linehold.rig.adapter.web;

import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.WebSocket;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletionStage;

/** Viewers of the live feed over real sockets, without a browser. */
final class LiveViewers {
    private LiveViewers() {}

    /** A viewer that reads, and notes when each batch was whole. */
    static final class Reader implements WebSocket.Listener {
        private final List<Long> arrivedNs = new ArrayList<>();
        private final List<String> batches = new ArrayList<>();
        private final boolean keeps;
        private final StringBuilder part = new StringBuilder();
        private WebSocket socket;

        private Reader(boolean keeps) {
            this.keeps = keeps;
        }

        /** @param keeps whether to keep what comes, beside when it came */
        static Reader open(int port, boolean keeps) {
            Reader reader = new Reader(keeps);
            reader.socket = HttpClient.newHttpClient()
                    .newWebSocketBuilder()
                    .header("Origin", "http://127.0.0.1:" + port)
                    .buildAsync(URI.create("ws://127.0.0.1:" + port + "/api/live"), reader)
                    .join();
            return reader;
        }

        @Override
        public CompletionStage<?> onText(WebSocket from, CharSequence text, boolean last) {
            part.append(text);
            if (last) {
                synchronized (this) {
                    arrivedNs.add(System.nanoTime());
                    if (keeps) {
                        batches.add(part.toString());
                    }
                }
                part.setLength(0);
            }
            from.request(1);
            return null;
        }

        synchronized int count() {
            return arrivedNs.size();
        }

        synchronized List<Long> arrivedNs() {
            return List.copyOf(arrivedNs);
        }

        synchronized List<String> batches() {
            return List.copyOf(batches);
        }

        void close() {
            socket.abort();
        }
    }

    /** A viewer that opens the socket and then reads nothing at all. */
    static Socket silent(int port) throws IOException {
        Socket socket = new Socket();
        socket.setReceiveBufferSize(4096);
        socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port));
        OutputStream out = socket.getOutputStream();
        out.write(("GET /api/live HTTP/1.1\r\nHost: 127.0.0.1:" + port
                        + "\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n"
                        + "Sec-WebSocket-Version: 13\r\nSec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\nOrigin: http://127.0.0.1:"
                        + port + "\r\n\r\n")
                .getBytes(StandardCharsets.US_ASCII));
        out.flush();
        return socket;
    }
}
