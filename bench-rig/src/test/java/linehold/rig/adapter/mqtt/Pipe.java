package linehold.rig.adapter.mqtt;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;

/** A wire between a rig and its broker that can be cut, or go silent without anybody being told. */
final class Pipe implements AutoCloseable {
    private final ServerSocket door = new ServerSocket(0, 10, InetAddress.getLoopbackAddress());
    private final int brokerPort;
    private final List<Socket> sockets = new CopyOnWriteArrayList<>();
    private volatile boolean silent;

    Pipe(int brokerPort) throws IOException {
        this.brokerPort = brokerPort;
        start(this::accept);
    }

    int port() {
        return door.getLocalPort();
    }

    /** What is sent disappears; connections stay open. */
    void silence(boolean on) {
        silent = on;
    }

    /** Ends the connections of the moment, without a word of the protocol. */
    void cut() throws IOException {
        for (Socket socket : sockets) {
            socket.close();
        }
        sockets.clear();
    }

    private void accept() throws IOException {
        while (true) {
            Socket inside = door.accept();
            Socket outside = new Socket(InetAddress.getLoopbackAddress(), brokerPort);
            sockets.add(inside);
            sockets.add(outside);
            start(() -> carry(inside, outside));
            start(() -> carry(outside, inside));
        }
    }

    private void carry(Socket from, Socket to) throws IOException {
        byte[] buffer = new byte[4096];
        try (InputStream in = from.getInputStream();
                OutputStream out = to.getOutputStream()) {
            for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
                if (!silent) {
                    out.write(buffer, 0, n);
                }
            }
        }
    }

    private interface Work {
        void run() throws IOException;
    }

    private static void start(Work work) {
        Thread thread = new Thread(
                () -> {
                    try {
                        work.run();
                    } catch (IOException e) {
                        // cut
                    }
                },
                "pipe");
        thread.setDaemon(true);
        thread.start();
    }

    @Override
    public void close() throws IOException {
        door.close();
        cut();
    }
}
