package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.tick.TickField;
import linehold.rig.loop.TickRow;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class LiveBatchTest {
    private static double[] row(double nowNs) {
        double[] row = new double[TickRow.LENGTH];
        row[TickRow.NOW_NS] = nowNs;
        row[TickRow.indexOf(TickField.LINE_PRESSURE_PA)] = Double.NaN;
        row[TickRow.indexOf(TickField.SHAFT_SPEED_RAD_S)] = 94.2477796;
        row[TickRow.indexOf(TickField.ACTIVE_CODES)] = 1L << 40;
        return row;
    }

    /** Two months, which a rig in a car may well run. */
    @Test
    void shouldTellTicksApartHoweverLongTheRigHasRun() {
        double startNs = 7e15;
        double later = 5_000_000.1234e9;
        LiveBatch batch = new LiveBatch();
        batch.add(row(startNs));
        batch.add(row(startNs + later));
        batch.add(row(startNs + later + 5e6));
        JsonNode t = PageServer.JSON.readTree(batch.takeJson()).get("t");
        assertThat(t.get(0).asDouble()).isZero();
        assertThat(t.get(1).asDouble()).isCloseTo(5_000_000.1234, within(1e-6));
        assertThat(t.get(2).asDouble() - t.get(1).asDouble()).isCloseTo(0.005, within(1e-6));
    }

    @Test
    void shouldTellWhatIsNotKnownAsNullAndKeepEveryBitOfASet() {
        LiveBatch batch = new LiveBatch();
        batch.add(row(0));
        JsonNode told = PageServer.JSON.readTree(batch.takeJson());
        assertThat(told.at("/p/0").isNull()).isTrue();
        assertThat(told.at("/n/0").asDouble()).isCloseTo(94.2477796, within(1e-4));
        assertThat(told.at("/codes/0").asLong()).isEqualTo(1L << 40);
        assertThat(batch.isEmpty()).isTrue();
    }
}
