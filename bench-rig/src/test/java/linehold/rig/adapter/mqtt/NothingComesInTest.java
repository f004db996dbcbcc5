package linehold.rig.adapter.mqtt;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.atomic.AtomicBoolean;
import linehold.rig.adapter.store.TestRig;
import linehold.rig.adapter.system.SystemClock;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRing;
import linehold.rig.loop.TickRow;
import linehold.rig.port.RigClock;
import org.junit.jupiter.api.Test;

/** Whatever anybody publishes, the rig does what it would have done. */
class NothingComesInTest {
    private static final long TICKS = 20_000;
    private static final Set<String> KNOWN = Set.of(
            TickRing.class.getName(),
            TickRing.Cursor.class.getName(),
            TickRow.class.getName(),
            RigFault.class.getName(),
            RigFaults.class.getName(),
            RigClock.class.getName());

    private final JavaClasses telemetry = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("linehold.rig.adapter.mqtt");

    @Test
    void shouldDriveTheSameWhateverIsPublishedToItsTopics() throws Exception {
        List<double[]> alone = drive(new TestRig());
        List<double[]> shoutedAt = new ArrayList<>();

        try (EmbeddedBroker broker = new EmbeddedBroker()) {
            broker.start();
            MqttSettings settings = MqttSettings.of(broker.url(), null, null, null, "test");
            TestRig rig = new TestRig();
            // The rig's time is no real one; let its end wait for the shouting.
            AtomicBoolean shouted = new AtomicBoolean();
            rig.afterTick = ticks -> {
                if (ticks == TICKS / 2) {
                    awaitQuietly(shouted);
                }
            };
            MqttTelemetry telemetry = MqttTelemetry.open(
                    settings, Times.USUAL, 4096, rig.ring.follow(), rig.faults, BusyRig.IDENTITY, new SystemClock());
            telemetry.start();
            Thread driving = new Thread(() -> shoutedAt.addAll(drive(rig)), "driving");
            try (Listener shouter = new Listener(settings, "shouter")) {
                Await.until("online", () -> shouter.texts("test/status").contains("online"));
                driving.start();
                shout(shouter);
                shouted.set(true);
                driving.join();
                shout(shouter);
            }
            telemetry.close();

            assertThat(broker.subscribed).containsExactly("#");
            assertThat(broker.received)
                    .filteredOn(message -> !message.client().equals("shouter"))
                    .isNotEmpty()
                    .allMatch(message -> message.client().equals("test"));
        }
        assertThat(shoutedAt).hasSameSizeAs(alone);
        for (int i = 0; i < alone.size(); i++) {
            assertThat(withoutRigFaults(shoutedAt.get(i))).as("row %d", i).isEqualTo(withoutRigFaults(alone.get(i)));
        }
    }

    private static void shout(Listener shouter) throws Exception {
        List<String> topics = List.of(
                "test/status",
                "test/about",
                "test/state",
                "test/event",
                "test/sample",
                "test/set",
                "test/state/set",
                "test/command",
                "test/calibration",
                "test",
                "calibration");
        List<String> texts = List.of(
                "offline",
                "on",
                "1",
                "{\"main_relay_coil\":true,\"pump_state\":\"off\"}",
                "{\"drive_permission\":\"granted\"}",
                "{\"calibration\":{\"control_period_s\":1}}",
                "");
        for (String topic : topics) {
            for (String text : texts) {
                shouter.publish(topic, text, text.length() % 2 == 0);
            }
        }
    }

    private static List<double[]> drive(TestRig rig) {
        rig.drive("stop-and-go", List.of(), TICKS);
        return rig.rows;
    }

    private static void awaitQuietly(AtomicBoolean condition) {
        try {
            Await.until("shouted", condition::get);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** That there is a broker is written into the row, and nobody decides by it. */
    private static double[] withoutRigFaults(double[] row) {
        double[] copy = row.clone();
        copy[TickRow.RIG_FAULTS] = 0;
        return copy;
    }

    @Test
    void shouldNeverSubscribeNorHaveAnEar() {
        noClasses()
                .should()
                .callMethodWhere(DescribedPredicate.describe(
                        "subscribes or listens",
                        call -> call.getName().startsWith("subscribe")
                                || call.getName().equals("setCallback")
                                || call.getName().startsWith("unsubscribe")))
                .check(telemetry);
        noClasses()
                .should()
                .implement(DescribedPredicate.describe(
                        "an ear of the client",
                        (JavaClass type) -> type.getPackageName().startsWith("org.eclipse.paho")))
                .check(telemetry);
    }

    /** It cannot reach a port, the loop or the controller, whatever it is told. */
    @Test
    void shouldKnowOfTheRigOnlyWhatItReads() {
        classes()
                .should()
                .onlyDependOnClassesThat(DescribedPredicate.describe("it reads", (JavaClass type) -> {
                    String name = type.getBaseComponentType().getName();
                    return !name.startsWith("linehold.")
                            || name.startsWith("linehold.rig.adapter.mqtt.")
                            || KNOWN.contains(name)
                            || name.equals("linehold.simulator.build.InputException")
                            || type.getBaseComponentType().isEnum() && name.startsWith("linehold.controller.");
                }))
                .check(telemetry);
    }
}
