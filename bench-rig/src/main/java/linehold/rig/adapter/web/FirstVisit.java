package linehold.rig.adapter.web;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * The page's first visitor is the program itself: what the server loads and compiles at the first request, a second or more on
 * a small board, is done before a person opens the page. Whether it succeeds is of no account.
 */
final class FirstVisit implements Runnable {
    private static final List<String> PATHS = List.of("/", "/page/main.js", "/lib/uPlot.js", "/api/facts");
    private static final int LONGEST_MS = 10_000;

    private final InetAddress address;
    private final int port;
    private final String token;

    private FirstVisit(PageSettings settings, int port) {
        address = settings.address();
        this.port = port;
        token = settings.token();
    }

    /** On a thread of its own, which comes after everything else. */
    static void start(PageSettings settings, int port) {
        Thread thread = new Thread(new FirstVisit(settings, port), "page-first-visit");
        thread.setDaemon(true);
        thread.setPriority(Thread.MIN_PRIORITY);
        thread.start();
    }

    @Override
    public void run() {
        try {
            for (String path : PATHS) {
                visit(path);
            }
        } catch (IOException e) {
            // The server has been closed again.
        }
    }

    private void visit(String path) throws IOException {
        try (Socket socket = new Socket(address, port)) {
            socket.setSoTimeout(LONGEST_MS);
            String request = "GET " + path + " HTTP/1.1\r\nHost: " + PageSettings.hostName(address) + ":" + port
                    + "\r\nAccept-Encoding: gzip\r\nConnection: close\r\n"
                    + (token == null ? "" : "Cookie: " + Gate.COOKIE + "=" + token + "\r\n") + "\r\n";
            socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
            socket.getInputStream().readAllBytes();
        }
    }
}
