package linehold.rig.adapter.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import linehold.controller.DrivePermission;
import linehold.controller.safety.SelfTestState;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;
import linehold.controller.tick.TickField;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.TickRow;
import org.junit.jupiter.api.Test;

/** The examples of docs/mqtt.md are what a broker has received; rewrite them with -Dlinehold.write=true. */
class MqttPageTest {
    private static final Path PAGE =
            Path.of(System.getProperty("linehold.root", "..")).resolve("docs/mqtt.md");
    private static final Instant START = Instant.parse("2026-03-01T10:00:00.250Z");
    private static final RigIdentity IDENTITY = new RigIdentity(
            "linehold 0.1.0",
            "simulated: stop-and-go",
            "demonstration",
            "5f0c9d0b7d0e4f7f3f0d5f8b6f6a1c2e9b8d7a6f5e4d3c2b1a09f8e7d6c5b4a3",
            0x0123_4567_89ab_cdefL,
            5_000_000);

    private final double[] row = new double[TickRow.LENGTH];

    private void set(TickField field, double value) {
        row[TickRow.indexOf(field)] = value;
    }

    /** Two made-up seconds in which everything happens that can be told. */
    private void happen(RowWatcher watcher) {
        set(TickField.STATE, PumpState.PRIME.ordinal());
        set(TickField.REASON, SwitchReason.KEY_ON.ordinal());
        set(TickField.PERMISSION, DrivePermission.WITHHELD.ordinal());
        set(TickField.SELF_TEST, SelfTestState.PASSED.ordinal());
        set(TickField.PUMP_WANTED, 1);
        set(TickField.KEY_ON, 1);
        set(TickField.OIL_C, 61.3);
        set(TickField.BUS_V, 13.82);
        set(TickField.PUMP_CURRENT_A, 17.46);
        for (int tick = 0; tick < 400; tick++) {
            set(TickField.LINE_PRESSURE_PA, Math.min(tick * 8000, 612_000) + tick % 3 * 1500);
            row[TickRow.LATE_NS] = 60_000 + tick % 7 * 10_000;
            if (tick == 90) {
                set(TickField.STATE, PumpState.ELECTRIC.ordinal());
                set(TickField.REASON, SwitchReason.PRIMED.ordinal());
                set(TickField.PERMISSION, DrivePermission.GRANTED.ordinal());
                set(TickField.TORQUE_LIMIT_NM, Double.POSITIVE_INFINITY);
            }
            row[TickRow.RIG_FAULTS] = tick >= 100 && tick < 110 ? RigFault.BUS_FAILED.bit() : 0;
            boolean low = tick >= 200 && tick < 300;
            boolean noisy = tick >= 330;
            long active = (low ? TroubleCode.SUPPLY_LOW.bit() : 0) | (noisy ? TroubleCode.PICKUP_NOISY.bit() : 0);
            set(TickField.ACTIVE_CODES, active);
            set(TickField.STORED_CODES, tick >= 200 ? TroubleCode.SUPPLY_LOW.bit() | active : 0);
            set(TickField.WARNING_LAMP, active == 0 ? 0 : 1);
            set(TickField.SHAFT_SPEED_RAD_S, tick < 250 ? 0 : (tick - 250) * 0.2134);
            watcher.see(row, START.getEpochSecond() * 1_000_000_000 + START.getNano());
            if (tick == 320) {
                watcher.missed(12);
            }
            row[TickRow.NOW_NS] += 5_000_000;
        }
        watcher.end();
    }

    /** Everything that the broker has received, by topic. */
    private Map<String, List<String>> received() throws Exception {
        Payloads payloads = new Payloads(IDENTITY, START);
        Outbox outbox = new Outbox(4096, payloads::eventsLost);
        Map<String, List<String>> byTopic = new LinkedHashMap<>();
        try (EmbeddedBroker broker = new EmbeddedBroker()) {
            broker.start();
            MqttSettings settings = MqttSettings.of(broker.url(), null, null, null, "linehold/rig");
            try (Link link = Link.open(settings, Times.USUAL)) {
                link.publish(Topic.STATUS, Payloads.ONLINE);
                link.publish(Topic.ABOUT, payloads.about());
                happen(new RowWatcher(payloads, outbox));
                for (Message next = outbox.take(0); next != null; next = outbox.take(0)) {
                    link.publish(next.topic(), next.payload());
                }
                link.publish(Topic.EVENT, payloads.eventsLost(new Loss(3, 17, 19)));
                link.leave();
            }
            Await.until(
                    "all of it",
                    () -> broker.received.stream()
                            .anyMatch(message -> message.text().contains("events_lost")));
            for (EmbeddedBroker.Received message : broker.received) {
                byTopic.computeIfAbsent(message.topic(), topic -> new ArrayList<>())
                        .add(message.text());
            }
        }
        return byTopic;
    }

    @Test
    void shouldShowWhatIsSent() throws Exception {
        Map<String, List<String>> received = received();
        assertThat(received.get("linehold/rig/status")).containsExactly("online");
        check("about", block(received.get("linehold/rig/about")));
        check("state", block(received.get("linehold/rig/state").subList(0, 1)));
        check("sample", block(received.get("linehold/rig/sample").subList(5, 6)));
        check("event", block(firstOfEachKind(received.get("linehold/rig/event"))));
    }

    private static List<String> firstOfEachKind(List<String> events) {
        Map<String, String> first = new LinkedHashMap<>();
        for (String event : events) {
            first.putIfAbsent(EventText.read(event).get("event").asString(), event);
        }
        return List.copyOf(first.values());
    }

    private static String block(List<String> texts) {
        return "```json\n" + String.join("\n", texts) + "\n```\n";
    }

    @Test
    void shouldDescribeEveryFieldAndEveryEvent() throws Exception {
        String page = Files.readString(PAGE, StandardCharsets.UTF_8);
        for (List<String> texts : received().values()) {
            for (String text : texts) {
                if (text.startsWith("{")) {
                    var message = EventText.read(text);
                    assertThat(message.propertyNames())
                            .allSatisfy(name -> assertThat(page).contains("`" + name + "`"));
                    if (message.has("event")) {
                        assertThat(page).contains("`" + message.get("event").asString() + "`");
                    }
                }
            }
        }
    }

    @Test
    void shouldListTheTopics() throws IOException {
        StringBuilder table = new StringBuilder("| topic | quality of service | retained |\n|---|---|---|\n");
        for (Topic topic : Topic.values()) {
            table.append("| `%s` | %d | %s |\n"
                    .formatted(topic.below("linehold/rig"), topic.qos(), topic.retained() ? "yes" : "no"));
        }
        check("topics", table.toString());
    }

    private static void check(String name, String text) throws IOException {
        String begin = "<!-- " + name + ": generated -->\n";
        String end = "<!-- end of " + name + " -->";
        String page = Files.readString(PAGE, StandardCharsets.UTF_8).replace("\r\n", "\n");
        if (Boolean.getBoolean("linehold.write")) {
            int from = page.indexOf(begin) + begin.length();
            page = page.substring(0, from) + text + page.substring(page.indexOf(end));
            Files.writeString(PAGE, page, StandardCharsets.UTF_8);
        }
        assertThat(page)
                .as("docs/mqtt.md is stale; rewrite it with: mvn -q -pl bench-rig -am test -Dtest=MqttPageTest"
                        + " -Dlinehold.write=true -Dsurefire.failIfNoSpecifiedTests=false")
                .contains(begin + text + end);
    }
}
