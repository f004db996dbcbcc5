package linehold.rig.adapter.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.net.ssl.SSLException;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Against another maker's broker: user and password, encryption, retained messages, last will, and an outage as a listener
 * at the broker sees it (at length: {@code -Dlinehold.outage=60}).
 */
class MosquittoTest {
    private static final long OUTAGE_MS = 1000 * Long.getLong("linehold.outage", 3);
    private static final Times QUICK = new Times(5, 5, 2000, 100, 400, 1000, 5000);

    @TempDir
    Path folder;

    private Path program;

    @BeforeEach
    void findMosquitto() {
        assumeTrue(Mosquitto.program().isPresent(), "mosquitto is not installed (apt-get install mosquitto)");
        program = Mosquitto.program().orElseThrow();
    }

    private MqttSettings settings(String url, String password, Path ca) throws Exception {
        Path file = Files.writeString(folder.resolve("password-" + password.length()), password + "\n");
        return MqttSettings.of(url, Mosquitto.USER, file, ca, "workshop/car-1");
    }

    private MqttSettings plain(int port) throws Exception {
        return settings("tcp://127.0.0.1:" + port, Mosquitto.PASSWORD, null);
    }

    private static MqttTelemetry telemetry(MqttSettings settings, BusyRig rig) {
        MqttTelemetry telemetry =
                MqttTelemetry.open(settings, QUICK, 4096, rig.ring.follow(), rig.faults, BusyRig.IDENTITY, rig.clock);
        telemetry.start();
        return telemetry;
    }

    private static List<String> events(Listener listener) {
        return listener.texts("workshop/car-1/event");
    }

    private static List<String> statuses(Listener listener) {
        return listener.texts("workshop/car-1/status");
    }

    @Test
    void shouldLoseNoEventWhenTheBrokerGoesAwayAndComesBack() throws Exception {
        try (Mosquitto broker = new Mosquitto(program, folder, null)) {
            broker.start();
            try (Listener listener = new Listener(plain(broker.port), "listener");
                    BusyRig rig = new BusyRig(20)) {
                MqttTelemetry telemetry = telemetry(plain(broker.port), rig);
                rig.start();
                Await.until("events", () -> events(listener).size() > 10);
                broker.stop();
                Await.until("offline", rig::offline);
                Thread.sleep(OUTAGE_MS);
                broker.start();
                listener.comeBack();
                int before = events(listener).size();
                Await.until("more events", () -> events(listener).size() > before + 30);
                rig.close();
                Await.until("all is told", () -> EventText.told(events(listener)) >= rig.entered.size());
                telemetry.close();
                Await.until("the end", () -> String.join("", events(listener)).contains("\"stopped\""));

                assertThat(EventText.entered(events(listener))).isEqualTo(rig.entered);
                assertThat(broker.log()).doesNotContain("Received SUBSCRIBE from workshop-car-1");
                assertThat(broker.log()).contains("Received SUBSCRIBE from listener");
            }
        }
    }

    @Test
    void shouldLeaveItsLastWillWhenItIsCutOffAndItsNewestStateRetained() throws Exception {
        try (Mosquitto broker = new Mosquitto(program, folder, null)) {
            broker.start();
            try (Pipe pipe = new Pipe(broker.port);
                    Listener listener = new Listener(plain(broker.port), "listener");
                    BusyRig rig = new BusyRig(20)) {
                MqttTelemetry telemetry = telemetry(plain(pipe.port()), rig);
                rig.start();
                Await.until(
                        "state", () -> listener.texts("workshop/car-1/state").size() > 2);
                pipe.cut();
                Await.until("will and return", () -> statuses(listener).size() >= 3);
                rig.close();
                telemetry.close();
                Await.until("leaving", () -> statuses(listener).size() >= 4);
                assertThat(statuses(listener)).containsExactly("online", "offline", "online", "offline");

                try (Listener late = new Listener(plain(broker.port), "late")) {
                    Await.until("retained", () -> late.heard.size() >= 3);
                    assertThat(late.heard).allMatch(Listener.Heard::retained);
                    assertThat(late.texts("workshop/car-1/status")).containsExactly("offline");
                    assertThat(late.texts("workshop/car-1/about")).hasSize(1);
                    var state =
                            EventText.read(late.texts("workshop/car-1/state").get(0));
                    List<Long> seqs = EventText.seqs(events(listener));
                    assertThat(state.get("seq").asLong()).isEqualTo(seqs.get(seqs.size() - 1));
                    assertThat(late.texts("workshop/car-1/event")).isEmpty();
                    assertThat(late.texts("workshop/car-1/sample")).isEmpty();
                }
            }
        }
    }

    @Test
    void shouldSayThatThePasswordIsRefusedAndNotRepeatIt() throws Exception {
        try (Mosquitto broker = new Mosquitto(program, folder, null)) {
            broker.start();
            MqttSettings wrong = settings("tcp://127.0.0.1:" + broker.port, "another", null);
            assertThatThrownBy(() -> Link.open(wrong, QUICK))
                    .isInstanceOf(MqttException.class)
                    .satisfies(e -> assertThat(Trouble.of((Exception) e)).isEqualTo("it refuses the user or password"))
                    .satisfies(e -> assertThat(e.toString()).doesNotContain("another"));
        }
    }

    @Test
    void shouldTellEveryEventOverAnEncryptedConnection() throws Exception {
        TestCertificates certificates = TestCertificates.make(folder.resolve("tls"), "IP:127.0.0.1");
        try (Mosquitto broker = new Mosquitto(program, folder, certificates)) {
            broker.start();
            MqttSettings settings =
                    settings("ssl://127.0.0.1:" + broker.port, Mosquitto.PASSWORD, certificates.authority());
            try (Listener listener = new Listener(settings, "listener");
                    BusyRig rig = new BusyRig(20)) {
                MqttTelemetry telemetry = telemetry(settings, rig);
                rig.start();
                Await.until("events", () -> events(listener).size() > 10);
                rig.close();
                Await.until("all is told", () -> EventText.told(events(listener)) >= rig.entered.size());
                telemetry.close();
                Await.until("the end", () -> String.join("", events(listener)).contains("\"stopped\""));
                assertThat(EventText.entered(events(listener))).isEqualTo(rig.entered);
            }
        }
    }

    @Test
    void shouldNotTalkToABrokerWhoseCertificateAnotherAuthorityHasSigned() throws Exception {
        TestCertificates certificates = TestCertificates.make(folder.resolve("tls"), "IP:127.0.0.1");
        TestCertificates others = TestCertificates.make(folder.resolve("others"), "IP:127.0.0.1");
        shouldNotBeAccepted(certificates, others.authority());
    }

    @Test
    void shouldNotTalkToABrokerWhoseCertificateIsForAnotherHost() throws Exception {
        TestCertificates certificates = TestCertificates.make(folder.resolve("tls"), "DNS:elsewhere.example");
        shouldNotBeAccepted(certificates, certificates.authority());
    }

    /** Nor one without a word of its own authority: the JDK's do not know it. */
    @Test
    void shouldNotTalkToABrokerThatOnlyItsOwnAuthorityKnowsWithoutACaFile() throws Exception {
        TestCertificates certificates = TestCertificates.make(folder.resolve("tls"), "IP:127.0.0.1");
        shouldNotBeAccepted(certificates, null);
    }

    private void shouldNotBeAccepted(TestCertificates certificates, Path ca) throws Exception {
        try (Mosquitto broker = new Mosquitto(program, folder, certificates)) {
            broker.start();
            MqttSettings settings = settings("ssl://127.0.0.1:" + broker.port, Mosquitto.PASSWORD, ca);
            assertThatThrownBy(() -> Link.open(settings, QUICK))
                    .isInstanceOf(MqttException.class)
                    .hasCauseInstanceOf(SSLException.class)
                    .satisfies(
                            e -> assertThat(Trouble.of((Exception) e)).startsWith("its certificate is not accepted"));
            assertThat(broker.log()).doesNotContain("CONNECT from");
        }
    }
}
