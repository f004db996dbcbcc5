package linehold.rig.adapter.mqtt;

import io.moquette.broker.Server;
import io.moquette.broker.config.IConfig;
import io.moquette.broker.config.MemoryConfig;
import io.moquette.interception.AbstractInterceptHandler;
import io.moquette.interception.messages.InterceptPublishMessage;
import io.moquette.interception.messages.InterceptSubscribeMessage;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Properties;
import java.util.concurrent.CopyOnWriteArrayList;

/** A broker within the test that notes what it is told; it can go away and come back at the same port. */
final class EmbeddedBroker implements AutoCloseable {
    /** A message as it reached the broker. */
    record Received(String client, String topic, int qos, boolean retained, String text) {}

    final int port;
    final List<Received> received = new CopyOnWriteArrayList<>();
    /** Topic filters that anybody subscribed to. */
    final List<String> subscribed = new CopyOnWriteArrayList<>();

    private Server server;

    EmbeddedBroker() throws IOException {
        port = freePort();
    }

    static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    String url() {
        return "tcp://127.0.0.1:" + port;
    }

    void start() throws IOException {
        Properties properties = new Properties();
        properties.setProperty(IConfig.HOST_PROPERTY_NAME, "127.0.0.1");
        properties.setProperty(IConfig.PORT_PROPERTY_NAME, Integer.toString(port));
        properties.setProperty(IConfig.ALLOW_ANONYMOUS_PROPERTY_NAME, "true");
        properties.setProperty(IConfig.PERSISTENCE_ENABLED_PROPERTY_NAME, "false");
        properties.setProperty(IConfig.ENABLE_TELEMETRY_NAME, "false");
        server = new Server();
        server.startServer(new MemoryConfig(properties), List.of(new Ear()));
    }

    void stop() {
        if (server != null) {
            server.stopServer();
            server = null;
        }
    }

    /** What arrived at a topic, in order. */
    List<String> texts(String topic) {
        return received.stream()
                .filter(message -> message.topic().equals(topic))
                .map(Received::text)
                .toList();
    }

    @Override
    public void close() {
        stop();
    }

    private final class Ear extends AbstractInterceptHandler {
        @Override
        public String getID() {
            return "ear";
        }

        @Override
        public void onPublish(InterceptPublishMessage message) {
            received.add(new Received(
                    message.getClientID(),
                    message.getTopicName(),
                    message.getQos().value(),
                    message.isRetainFlag(),
                    message.getPayload().toString(StandardCharsets.UTF_8)));
            message.getPayload().release();
        }

        @Override
        public void onSubscribe(InterceptSubscribeMessage message) {
            subscribed.add(message.getTopicFilter());
        }

        @Override
        public void onSessionLoopError(Throwable error) {
            throw new IllegalStateException(error);
        }
    }
}
