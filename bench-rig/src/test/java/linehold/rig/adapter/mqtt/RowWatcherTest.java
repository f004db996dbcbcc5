package linehold.rig.adapter.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import linehold.controller.DrivePermission;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import linehold.controller.tick.TickField;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.TickRow;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class RowWatcherTest {
    private static final long PERIOD_NS = 5_000_000;
    private static final long WALL_MINUS_RIG_NS =
            Instant.parse("2026-03-01T10:00:00Z").getEpochSecond() * 1_000_000_000;

    private final Payloads payloads = new Payloads(BusyRig.IDENTITY, Instant.parse("2026-03-01T10:00:00Z"));
    private final Outbox outbox = new Outbox(100_000, payloads::eventsLost);
    private final RowWatcher watcher = new RowWatcher(payloads, outbox);
    private final double[] row = new double[TickRow.LENGTH];

    @BeforeEach
    void begin() {
        set(TickField.STATE, PumpState.ELECTRIC.ordinal());
        set(TickField.PERMISSION, DrivePermission.GRANTED.ordinal());
        set(TickField.TORQUE_LIMIT_NM, Double.POSITIVE_INFINITY);
        set(TickField.LINE_PRESSURE_PA, 500_000);
        set(TickField.PUMP_CURRENT_A, Double.NaN);
    }

    private void set(TickField field, double value) {
        row[TickRow.indexOf(field)] = value;
    }

    private void tick() {
        watcher.see(row, WALL_MINUS_RIG_NS);
        row[TickRow.NOW_NS] += PERIOD_NS;
    }

    private void ticks(int count) {
        for (int i = 0; i < count; i++) {
            tick();
        }
    }

    private List<JsonNode> taken(Topic topic) throws InterruptedException {
        watcher.tellState();
        List<JsonNode> taken = new ArrayList<>();
        for (Message next = outbox.take(0); next != null; next = outbox.take(0)) {
            if (next.topic() == topic) {
                taken.add(EventText.read(new String(next.payload(), StandardCharsets.UTF_8)));
            }
        }
        return taken;
    }

    private List<String> names() throws InterruptedException {
        return taken(Topic.EVENT).stream()
                .map(event -> event.get("event").asString())
                .toList();
    }

    @Test
    void shouldTellAtTheFirstTickHowThingsAre() throws InterruptedException {
        set(TickField.ACTIVE_CODES, TroubleCode.SUPPLY_LOW.bit());
        tick();
        assertThat(names()).containsExactly("started", "pump_state", "drive_permission", "code_raised");
    }

    @Test
    void shouldTellNothingWhereNothingChanges() throws InterruptedException {
        tick();
        names();
        ticks(1000);
        assertThat(names()).isEmpty();
    }

    @Test
    void shouldTellWhatChangedFromTickToTickWithNumberAndTime() throws InterruptedException {
        tick();
        names();
        set(TickField.STATE, PumpState.OVERLAP.ordinal());
        tick();
        JsonNode event = taken(Topic.EVENT).get(0);
        assertThat(event.get("event").asString()).isEqualTo("pump_state");
        assertThat(event.get("from").asString()).isEqualTo("electric");
        assertThat(event.get("to").asString()).isEqualTo("overlap");
        assertThat(event.get("seq").asLong()).isEqualTo(3);
        assertThat(event.get("uptime_s").asDouble()).isEqualTo(0.005);
        assertThat(event.get("utc").asString()).isEqualTo("2026-03-01T10:00:00.005Z");
    }

    @Test
    void shouldTellEachCodeThatComesAndGoes() throws InterruptedException {
        tick();
        names();
        set(TickField.ACTIVE_CODES, TroubleCode.PICKUP_LOST.bit() | TroubleCode.SUPPLY_LOW.bit());
        tick();
        set(TickField.ACTIVE_CODES, TroubleCode.SUPPLY_LOW.bit());
        tick();
        List<JsonNode> events = taken(Topic.EVENT);
        assertThat(events)
                .extracting(event ->
                        event.get("event").asString() + " " + event.get("code").asString())
                .containsExactly("code_raised P0717", "code_raised P0562", "code_cleared P0717");
    }

    @Test
    void shouldTellAFaultOfTheRigThatFlickersOnce() throws InterruptedException {
        tick();
        names();
        for (int i = 0; i < 400; i++) {
            row[TickRow.RIG_FAULTS] = i % 2 == 0 ? RigFault.BUS_FAILED.bit() : 0;
            tick();
        }
        assertThat(names()).containsExactly("rig_fault_raised");
        row[TickRow.RIG_FAULTS] = 0;
        ticks(201);
        assertThat(names()).containsExactly("rig_fault_cleared");
    }

    @Test
    void shouldTellThatTicksWereMissed() throws InterruptedException {
        tick();
        names();
        watcher.missed(7);
        JsonNode event = taken(Topic.EVENT).get(0);
        assertThat(event.get("event").asString()).isEqualTo("ticks_missed");
        assertThat(event.get("count").asLong()).isEqualTo(7);
    }

    @Test
    void shouldGiveFiveSamplesASecondWithTheLeastAndGreatestPressureBetween() throws InterruptedException {
        for (int i = 0; i < 201; i++) {
            set(TickField.LINE_PRESSURE_PA, i == 50 ? 310_000 : i == 51 ? 620_000 : 500_000);
            row[TickRow.LATE_NS] = i == 60 ? 250_000 : 10_000;
            tick();
        }
        List<JsonNode> samples = taken(Topic.SAMPLE);
        assertThat(samples).hasSize(5).allMatch(sample -> sample.get("ticks").asLong() == 40);
        assertThat(samples)
                .extracting(sample -> sample.get("line_pressure_min_pa").asLong())
                .containsExactly(500_000L, 310_000L, 500_000L, 500_000L, 500_000L);
        assertThat(samples)
                .extracting(sample -> sample.get("line_pressure_max_pa").asLong())
                .containsExactly(500_000L, 620_000L, 500_000L, 500_000L, 500_000L);
        assertThat(samples.get(1).get("late_max_s").asDouble()).isEqualTo(0.00025);
        assertThat(samples.get(0).get("uptime_s").asDouble()).isEqualTo(0.195);
        assertThat(samples.get(0).get("pump_current_a").isNull()).isTrue();
    }

    @Test
    void shouldGiveNoPressureWhereNoneIsKnown() throws InterruptedException {
        set(TickField.LINE_PRESSURE_PA, Double.NaN);
        ticks(41);
        JsonNode sample = taken(Topic.SAMPLE).get(0);
        assertThat(sample.get("line_pressure_pa").isNull()).isTrue();
        assertThat(sample.get("line_pressure_min_pa").isNull()).isTrue();
        assertThat(sample.get("line_pressure_max_pa").isNull()).isTrue();
    }

    @Test
    void shouldRenewTheStateWithEveryEventAndOnlyThen() throws InterruptedException {
        tick();
        JsonNode state = taken(Topic.STATE).get(0);
        assertThat(state.get("pump_state").asString()).isEqualTo("electric");
        assertThat(state.get("torque_limit_nm").isNull()).isTrue();
        assertThat(state.get("active_codes").isEmpty()).isTrue();
        ticks(100);
        assertThat(taken(Topic.STATE)).isEmpty();
        set(TickField.ACTIVE_CODES, TroubleCode.PICKUP_LOST.bit());
        tick();
        assertThat(taken(Topic.STATE).get(0).get("active_codes").get(0).asString())
                .isEqualTo("P0717");
    }

    @Test
    void shouldTellTheEnd() throws InterruptedException {
        watcher.end();
        assertThat(names()).isEmpty();
        tick();
        names();
        watcher.end();
        assertThat(names()).containsExactly("stopped");
    }
}
