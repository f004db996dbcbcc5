package linehold.rig.loop;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.tick.TickField;
import org.junit.jupiter.api.Test;

class TickRingTest {
    private final TickRing ring = new TickRing(8);
    private final Inputs in = new Inputs();
    private final Outputs out = new Outputs();
    private final double[] row = new double[TickRow.LENGTH];

    private void publish(long number) {
        in.pickupEdgeCount = number;
        out.coolDowns = number;
        ring.publish(number, 2 * number, 1, in, out);
    }

    @Test
    void shouldGiveEveryRowOnceAndInOrder() {
        TickRing.Cursor cursor = ring.follow();
        assertThat(cursor.read(row)).isFalse();
        for (int i = 1; i <= 5; i++) {
            publish(i);
        }
        for (int i = 1; i <= 5; i++) {
            assertThat(cursor.read(row)).isTrue();
            assertThat(row[TickRow.NOW_NS]).isEqualTo(i);
            assertThat(row[TickRow.LATE_NS]).isEqualTo(2 * i);
            assertThat(row[TickRow.RIG_FAULTS]).isEqualTo(1);
            assertThat(row[TickRow.indexOf(TickField.PICKUP_EDGE_COUNT)]).isEqualTo(i);
            assertThat(row[TickRow.indexOf(TickField.COOL_DOWNS)]).isEqualTo(i);
        }
        assertThat(cursor.read(row)).isFalse();
        assertThat(cursor.missed()).isZero();
    }

    @Test
    void shouldTellAReaderThatIsTooSlowHowManyRowsItMissed() {
        TickRing.Cursor cursor = ring.follow();
        for (int i = 1; i <= 20; i++) {
            publish(i);
        }
        assertThat(cursor.read(row)).isTrue();
        assertThat(row[TickRow.NOW_NS]).isEqualTo(13);
        assertThat(cursor.missed()).isEqualTo(12);
    }

    @Test
    void shouldBeginAtTheOldestRowThatIsStillThereForAReaderWhoRecalls() {
        for (int i = 1; i <= 3; i++) {
            publish(i);
        }
        assertThat(ring.recall().read(row)).isTrue();
        assertThat(row[TickRow.NOW_NS]).isEqualTo(1);
        for (int i = 4; i <= 20; i++) {
            publish(i);
        }
        TickRing.Cursor cursor = ring.recall();
        assertThat(cursor.read(row)).isTrue();
        assertThat(row[TickRow.NOW_NS]).isEqualTo(13);
        assertThat(cursor.missed()).isZero();
    }

    /** A torn row would have its first and its last field from two ticks. */
    @Test
    void shouldNeverGiveATornRowToAReaderOnAnotherThread() throws Exception {
        TickRing.Cursor cursor = ring.follow();
        int rows = 400_000;
        CompletableFuture<Long> reading = CompletableFuture.supplyAsync(() -> {
            long read = 0;
            double last = 0;
            while (last < rows) {
                if (cursor.read(row)) {
                    assertThat(row[TickRow.NOW_NS]).isGreaterThan(last);
                    last = row[TickRow.NOW_NS];
                    assertThat(row[TickRow.LATE_NS]).isEqualTo(2 * last);
                    assertThat(row[TickRow.LENGTH - 1]).isEqualTo(last);
                    read++;
                }
            }
            return read;
        });
        for (int i = 1; i <= rows; i++) {
            publish(i);
        }
        long read = reading.get(60, TimeUnit.SECONDS);
        assertThat(read + cursor.missed()).isEqualTo(rows);
    }
}
