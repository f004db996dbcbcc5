package linehold.rig.adapter.mqtt;

import java.util.concurrent.TimeUnit;
import org.eclipse.paho.client.mqttv3.MqttClient;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.MqttMessage;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;

/**
 * One connection, from its opening to its end; a new one is a new client. It only publishes: it never subscribes and has
 * no ear for what comes in. Nothing is kept in the client between connections; what counts is in the {@link Outbox} until
 * the broker has acknowledged it.
 */
final class Link implements AutoCloseable {
    /**
     * One message is under way at a time, but the client wakes who waits before it has counted the message out, and then
     * refuses the next as one too many.
     */
    private static final int MOST_UNDER_WAY = 1000;

    private final MqttClient client;
    private final String prefix;

    private Link(MqttClient client, String prefix) {
        this.client = client;
        this.prefix = prefix;
    }

    /** Connects, with the last will that {@link Topic#STATUS} becomes {@code offline}. */
    static Link open(MqttSettings settings, Times times) throws MqttException {
        MqttClient client = new MqttClient(settings.uri, settings.clientId(), new MemoryPersistence());
        Link link = new Link(client, settings.prefix);
        try {
            client.setTimeToWait(TimeUnit.SECONDS.toMillis(times.connectS()) + times.answerMs());
            client.connect(options(settings, times));
            client.setTimeToWait(times.answerMs());
            return link;
        } catch (MqttException | RuntimeException e) {
            link.close();
            throw e;
        }
    }

    private static MqttConnectOptions options(MqttSettings settings, Times times) {
        MqttConnectOptions options = new MqttConnectOptions();
        options.setMqttVersion(MqttConnectOptions.MQTT_VERSION_3_1_1);
        options.setCleanSession(true);
        options.setAutomaticReconnect(false);
        options.setMaxInflight(MOST_UNDER_WAY);
        options.setConnectionTimeout(times.connectS());
        options.setKeepAliveInterval(times.keepAliveS());
        options.setWill(
                Topic.STATUS.below(settings.prefix), Payloads.OFFLINE, Topic.STATUS.qos(), Topic.STATUS.retained());
        if (settings.user != null) {
            options.setUserName(settings.user);
        }
        if (settings.password != null) {
            options.setPassword(settings.password);
        }
        if (settings.tls == null) {
            options.setSocketFactory(new PromptSockets());
        } else {
            options.setSocketFactory(new PromptTlsSockets(settings.tls));
            options.setHttpsHostnameVerificationEnabled(true);
        }
        return options;
    }

    /** Returns once the broker has acknowledged it; at quality of service 0, once it is on its way. */
    void publish(Topic topic, byte[] payload) throws MqttException {
        MqttMessage message = new MqttMessage(payload);
        message.setQos(topic.qos());
        message.setRetained(topic.retained());
        client.publish(topic.below(prefix), message);
    }

    boolean alive() {
        return client.isConnected();
    }

    /** Leaves in good order; the broker then keeps the last will to itself. */
    void leave() throws MqttException {
        client.disconnect();
    }

    /** Also where it has never come to be: a broker that accepts and says nothing must leave no thread behind. */
    @Override
    public void close() {
        try {
            client.disconnectForcibly(0, 0, false);
            client.close(true);
        } catch (MqttException | RuntimeException e) {
            Sender.LOG.debug("closing a broken connection", e);
        }
    }
}
