package linehold.rig.adapter.mqtt;

import javax.net.ssl.SSLException;
import org.eclipse.paho.client.mqttv3.MqttException;

/** Why there is no connection, for people. Never holds what was sent. */
final class Trouble {
    private Trouble() {}

    static String of(Exception e) {
        Throwable cause = e.getCause() == null ? e : e.getCause();
        if (cause instanceof SSLException) {
            return "its certificate is not accepted, or it does not speak TLS (" + cause.getMessage() + ")";
        }
        if (e instanceof MqttException mqtt) {
            switch (mqtt.getReasonCode()) {
                case MqttException.REASON_CODE_FAILED_AUTHENTICATION:
                case MqttException.REASON_CODE_NOT_AUTHORIZED:
                    return "it refuses the user or password";
                case MqttException.REASON_CODE_INVALID_CLIENT_ID:
                    return "it refuses the client identifier, which is made of the topic prefix";
                case MqttException.REASON_CODE_CLIENT_TIMEOUT:
                    return "it does not answer";
                case MqttException.REASON_CODE_CONNECTION_LOST:
                case MqttException.REASON_CODE_CLIENT_NOT_CONNECTED:
                    return "the connection is lost";
                default:
            }
        }
        return cause.getMessage() == null ? cause.getClass().getSimpleName() : cause.getMessage();
    }
}
