package linehold.rig.adapter.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.util.List;
import java.util.stream.LongStream;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/**
 * A broker that goes away and comes back without a lost event. For the long outage:
 *
 * <pre>mvn -q -pl bench-rig -am test -Dtest=OutageTest -Dlinehold.outage=60 -Dsurefire.failIfNoSpecifiedTests=false</pre>
 */
class OutageTest {
    private static final long OUTAGE_MS = 1000 * Long.getLong("linehold.outage", 3);
    private static final String EVENTS = "test/event";
    /** Impatient, so that a test is short. */
    private static final Times QUICK = new Times(5, 5, 2000, 100, 400, 1000, 5000);

    private final BusyRig rig = new BusyRig(20);
    private final EmbeddedBroker broker;
    private MqttTelemetry telemetry;

    OutageTest() throws IOException {
        broker = new EmbeddedBroker();
    }

    private void open(String url, int outboxMessages) {
        telemetry = MqttTelemetry.open(
                MqttSettings.of(url, null, null, null, "test"),
                QUICK,
                outboxMessages,
                rig.ring.follow(),
                rig.faults,
                BusyRig.IDENTITY,
                rig.clock);
        telemetry.start();
    }

    private void open(String url) {
        open(url, 4096);
    }

    @AfterEach
    void end() throws InterruptedException {
        rig.close();
        if (telemetry != null) {
            telemetry.close();
        }
        broker.close();
    }

    /** Ends the rig and looks at what the broker was told in all. */
    private void shouldHaveToldEverythingInOrder() throws InterruptedException {
        rig.close();
        Await.until("all is told", () -> EventText.told(broker.texts(EVENTS)) >= rig.entered.size());
        telemetry.close();
        List<String> events = broker.texts(EVENTS);
        assertThat(EventText.entered(events)).isEqualTo(rig.entered);
        List<Long> seqs = EventText.seqs(events);
        assertThat(seqs)
                .containsExactlyElementsOf(
                        LongStream.range(0, seqs.size()).boxed().toList());
        assertThat(events.get(events.size() - 1)).contains("\"stopped\"");
    }

    private void awaitEvents(int more) throws InterruptedException {
        int now = broker.texts(EVENTS).size();
        Await.until(more + " more events", () -> broker.texts(EVENTS).size() >= now + more);
    }

    @Test
    void shouldTellEveryEventOnceInOrderWhenTheBrokerIsThere() throws Exception {
        broker.start();
        open(broker.url());
        rig.start();
        awaitEvents(30);

        shouldHaveToldEverythingInOrder();
        assertThat(broker.texts(EVENTS)).doesNotHaveDuplicates();
    }

    @Test
    void shouldLoseNoEventWhenTheBrokerGoesAwayAndComesBack() throws Exception {
        broker.start();
        open(broker.url());
        rig.start();
        awaitEvents(10);

        broker.stop();
        Await.until("offline", rig::offline);
        int before = rig.entered.size();
        Thread.sleep(OUTAGE_MS);
        assertThat(rig.entered.size() - before).isGreaterThan(10);
        assertThat(rig.offline()).isTrue();
        broker.start();
        Await.until("online", () -> !rig.offline());
        awaitEvents(30);

        shouldHaveToldEverythingInOrder();
    }

    @Test
    void shouldLoseNoEventWhenTheBrokerIsNotThereAtTheStart() throws Exception {
        open(broker.url());
        rig.start();
        Await.until("some events", () -> rig.entered.size() > 10);
        assertThat(rig.offline()).isTrue();
        broker.start();
        awaitEvents(20);

        assertThat(rig.offline()).isFalse();
        shouldHaveToldEverythingInOrder();
    }

    @Test
    void shouldLoseNoEventWhenTheConnectionIsCutAgainAndAgain() throws Exception {
        broker.start();
        try (Pipe pipe = new Pipe(broker.port)) {
            open("tcp://127.0.0.1:" + pipe.port());
            rig.start();
            for (int i = 0; i < 6; i++) {
                awaitEvents(4);
                pipe.cut();
            }
            awaitEvents(4);
            shouldHaveToldEverythingInOrder();
        }
    }

    @Test
    void shouldLeaveNoThreadsBehindConnectionsThatAreLost() throws Exception {
        broker.start();
        try (Pipe pipe = new Pipe(broker.port)) {
            open("tcp://127.0.0.1:" + pipe.port());
            rig.start();
            awaitEvents(2);
            long before = clientThreads();
            for (int i = 0; i < 5; i++) {
                pipe.cut();
                awaitEvents(2);
            }
            assertThat(before).isPositive();
            Await.until("no more threads than before", () -> clientThreads() <= before);
        }
    }

    @Test
    void shouldLeaveNoThreadsBehindABrokerThatAcceptsAndSaysNothing() throws Exception {
        try (ServerSocket mute = new ServerSocket(0, 10, InetAddress.getLoopbackAddress())) {
            Times hasty = new Times(1, 1, 300, 10, 20, 1000, 1000);
            MqttSettings settings = MqttSettings.of("tcp://127.0.0.1:" + mute.getLocalPort(), null, null, null, "test");
            for (int i = 0; i < 3; i++) {
                assertThatThrownBy(() -> Link.open(settings, hasty)).isInstanceOf(MqttException.class);
            }
            Await.until("no threads", () -> clientThreads() == 0);
        }
    }

    private static long clientThreads() {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(thread -> thread.getName().startsWith("MQTT"))
                .count();
    }

    @Test
    void shouldLoseNoEventWhenTheNetworkGoesSilent() throws Exception {
        broker.start();
        try (Pipe pipe = new Pipe(broker.port)) {
            open("tcp://127.0.0.1:" + pipe.port());
            rig.start();
            awaitEvents(4);
            pipe.silence(true);
            Await.until("offline", rig::offline);
            pipe.silence(false);
            awaitEvents(20);
            shouldHaveToldEverythingInOrder();
        }
    }

    @Test
    void shouldCountAndTellEventsThatTheBufferHadNoRoomFor() throws Exception {
        open(broker.url(), 25);
        rig.start();
        Await.until("more events than room", () -> rig.entered.size() > 50);
        broker.start();
        Await.until("events", () -> broker.texts(EVENTS).size() > 25);
        rig.close();
        telemetry.close();

        List<String> events = broker.texts(EVENTS);
        var loss = EventText.read(events.get(0));
        assertThat(loss.get("event").asString()).isEqualTo("events_lost");
        assertThat(loss.get("first_seq").asLong()).isZero();
        assertThat(loss.get("last_seq").asLong()).isEqualTo(loss.get("count").asLong() - 1);
        long next = EventText.read(events.get(1)).get("seq").asLong();
        assertThat(next).isEqualTo(loss.get("last_seq").asLong() + 1);
        List<String> states = broker.texts("test/state");
        assertThat(EventText.read(states.get(states.size() - 1))
                        .get("lost_events")
                        .asLong())
                .isEqualTo(loss.get("count").asLong());
    }
}
