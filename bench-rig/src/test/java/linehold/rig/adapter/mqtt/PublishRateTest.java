package linehold.rig.adapter.mqtt;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;

/** No test: prints how fast a backlog reaches a broker on the same machine, for docs/performance.md. */
@EnabledIfSystemProperty(named = "linehold.measure", matches = "true")
class PublishRateTest {
    private static final int MESSAGES = 4096;

    @TempDir
    Path folder;

    @Test
    void measure() throws Exception {
        assumeTrue(Mosquitto.program().isPresent(), "mosquitto is not installed (apt-get install mosquitto)");
        Path file = Files.writeString(folder.resolve("password"), Mosquitto.PASSWORD);
        byte[] payload = new byte[300];
        try (Mosquitto broker = new Mosquitto(Mosquitto.program().orElseThrow(), folder, null)) {
            broker.start();
            MqttSettings settings =
                    MqttSettings.of("tcp://127.0.0.1:" + broker.port, Mosquitto.USER, file, null, "measure");
            try (Link link = Link.open(settings, Times.USUAL)) {
                for (List<Topic> topics :
                        List.of(List.of(Topic.EVENT), List.of(Topic.SAMPLE), List.of(Topic.SAMPLE, Topic.EVENT))) {
                    long sinceNs = System.nanoTime();
                    for (int i = 0; i < MESSAGES; i++) {
                        link.publish(topics.get(i % topics.size()), payload);
                    }
                    double seconds = (System.nanoTime() - sinceNs) * 1e-9;
                    System.out.printf(Locale.ROOT, "%s: %.0f a second%n", topics, MESSAGES / seconds);
                }
            }
        }
    }
}
