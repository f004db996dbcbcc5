package linehold.rig.adapter.mqtt;

import java.util.Locale;

/** The topic tree below the prefix: everything that is ever published. There is nothing to subscribe to. */
enum Topic {
    /** {@code online} or {@code offline}, plain text; the last will. */
    STATUS(1, true),
    /** What runs here. */
    ABOUT(1, true),
    /** How things are now. */
    STATE(1, true),
    /** What has happened; one topic, because a broker keeps the order within a topic alone (MQTT 3.1.1, 4.6). */
    EVENT(1, false),
    /** Measured values, a few times a second. */
    SAMPLE(0, false);

    private final int qos;
    private final boolean retained;

    Topic(int qos, boolean retained) {
        this.qos = qos;
        this.retained = retained;
    }

    /** Quality of service: 0 at most once, 1 at least once. */
    int qos() {
        return qos;
    }

    /** The broker keeps the last one for whoever comes later. */
    boolean retained() {
        return retained;
    }

    String below(String prefix) {
        return prefix + "/" + name().toLowerCase(Locale.ROOT);
    }
}
