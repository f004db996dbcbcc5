package linehold.rig.adapter.mqtt;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.eclipse.paho.client.mqttv3.IMqttDeliveryToken;
import org.eclipse.paho.client.mqttv3.MqttCallback;
import org.eclipse.paho.client.mqttv3.MqttClient;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.MqttMessage;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;

/** Somebody at the broker who listens to everything, with a session that the broker keeps while he is away. */
final class Listener implements AutoCloseable {
    record Heard(String topic, boolean retained, String text) {}

    final List<Heard> heard = new CopyOnWriteArrayList<>();
    private final MqttClient client;
    private final MqttConnectOptions options = new MqttConnectOptions();

    Listener(MqttSettings settings, String name) throws MqttException {
        client = new MqttClient(settings.uri, name, new MemoryPersistence());
        options.setCleanSession(false);
        if (settings.password != null) {
            options.setUserName(settings.user);
            options.setPassword(settings.password);
        }
        options.setSocketFactory(settings.tls);
        client.setCallback(new MqttCallback() {
            @Override
            public void connectionLost(Throwable cause) {}

            @Override
            public void messageArrived(String topic, MqttMessage message) {
                heard.add(new Heard(
                        topic, message.isRetained(), new String(message.getPayload(), StandardCharsets.UTF_8)));
            }

            @Override
            public void deliveryComplete(IMqttDeliveryToken token) {}
        });
        client.connect(options);
        client.subscribe("#", 1);
    }

    /** The broker has been away. What it kept comes now. */
    void comeBack() throws MqttException {
        client.connect(options);
    }

    List<String> texts(String topic) {
        return heard.stream()
                .filter(message -> message.topic().equals(topic))
                .map(Heard::text)
                .toList();
    }

    void publish(String topic, String text, boolean retained) throws MqttException {
        client.publish(topic, text.getBytes(StandardCharsets.UTF_8), 1, retained);
    }

    @Override
    public void close() throws MqttException {
        if (client.isConnected()) {
            client.disconnect();
        }
        client.close();
    }
}
