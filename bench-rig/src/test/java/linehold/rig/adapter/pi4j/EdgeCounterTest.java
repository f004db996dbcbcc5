package linehold.rig.adapter.pi4j;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.mockito.ArgumentMatchers.anyLong;
import static org.mockito.Mockito.doAnswer;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.when;

import com.pi4j.library.gpiod.internal.GpioDException;
import com.pi4j.library.gpiod.internal.GpioLine;
import com.pi4j.library.gpiod.internal.GpioLineEvent;
import com.pi4j.library.gpiod.internal.LineEvent;
import java.util.ArrayDeque;
import java.util.Deque;
import linehold.rig.port.PortException;
import linehold.rig.port.PulseInput.Pulses;
import org.junit.jupiter.api.Test;

/** Edges as the kernel queues them, and what becomes of those that it dropped. */
class EdgeCounterTest {
    private static final long MS = 1_000_000;

    private record Edge(boolean rising, long atNs) {}

    private final GpioLine line = mock(GpioLine.class);
    private final GpioLineEvent event = mock(GpioLineEvent.class);
    private final Deque<Edge> queue = new ArrayDeque<>();
    private final Pulses pulses = new Pulses();
    private long nowNs = 1_000_000 * MS;
    private Edge current;
    private int calls;
    private final EdgeCounter counter = new EdgeCounter(line, event, true, () -> nowNs);

    EdgeCounterTest() {
        when(line.eventWait(anyLong())).thenAnswer(call -> {
            if (queue.isEmpty() && call.<Long>getArgument(0) > 0) {
                counter.stop();
            }
            return !queue.isEmpty();
        });
        when(line.eventRead(event)).thenAnswer(call -> {
            current = queue.remove();
            return event;
        });
        when(event.getType()).thenAnswer(call -> current.rising ? LineEvent.RISING_EDGE : LineEvent.FALLING_EDGE);
        when(event.getTimeNs()).thenAnswer(call -> current.atNs);
    }

    private void rising(long atMs) {
        queue.add(new Edge(true, at(atMs)));
    }

    private void falling(long atMs) {
        queue.add(new Edge(false, at(atMs)));
    }

    private static long at(long ms) {
        return (1_000_000 - 1000 + ms) * MS;
    }

    private Pulses counted() throws PortException {
        counter.run();
        counter.read(pulses);
        return pulses;
    }

    @Test
    void shouldCountOneKindOfEdgeByTheKernelsTime() throws Exception {
        for (int i = 0; i < 5; i++) {
            rising(10 * i);
            falling(10 * i + 5);
        }

        counted();
        assertThat(pulses.count).isEqualTo(5);
        assertThat(pulses.lastEdgeNs).isEqualTo(at(40));
        assertThat(pulses.lost).isZero();
    }

    @Test
    void shouldCountAnEdgeThatWasMissedBetweenTwoOfTheOtherKindTogetherWithTheNext() throws Exception {
        rising(0);
        falling(5);
        falling(15);
        counted();
        assertThat(pulses.count).as("when it was is not known yet").isEqualTo(1);

        EdgeCounter again = new EdgeCounter(line, event, true, () -> nowNs);
        again.take(true, at(0));
        again.take(false, at(5));
        again.take(false, at(15));
        again.take(true, at(20));
        again.read(pulses);
        assertThat(pulses.count).isEqualTo(3);
        assertThat(pulses.lost).isEqualTo(1);
        assertThat(pulses.lastEdgeNs).isEqualTo(at(20));
    }

    @Test
    void shouldFillTheGapThatAnOverflowOfTheKernelsQueueHasLeft() throws Exception {
        for (int i = 0; i < 8; i++) {
            rising(10 * i);
            falling(10 * i + 5);
        }
        // Edges of 80 to 110 ms were dropped: four pulses.
        rising(120);
        falling(125);
        rising(130);

        counted();
        assertThat(pulses.count).isEqualTo(14);
        assertThat(pulses.lost).isEqualTo(4);
        assertThat(pulses.lastEdgeNs).isEqualTo(at(130));
    }

    @Test
    void shouldTakeALongGapForASlowShaftWhereNothingOverflowed() throws Exception {
        rising(0);
        falling(5);
        rising(10);
        falling(15);
        rising(500);

        counted();
        assertThat(pulses.count).isEqualTo(3);
        assertThat(pulses.lost).isZero();
    }

    @Test
    void shouldTakeTheArrivalWhereTheKernelsTimeIsOfAnotherClock() throws Exception {
        queue.add(new Edge(true, 1_700_000_000_000_000_000L));

        assertThat(counted().lastEdgeNs).isEqualTo(nowNs);
    }

    @Test
    void shouldFailAsAPortWhileTheLineFailsAndRecoverWithIt() throws Exception {
        rising(0);
        when(line.eventWait(anyLong())).thenAnswer(call -> failing(3));
        counter.run();
        assertThatThrownBy(() -> counter.read(pulses)).isInstanceOf(PortException.class);

        EdgeCounter again = new EdgeCounter(line, event, true, () -> nowNs);
        calls = 0;
        doAnswer(call -> {
                    calls++;
                    if (calls <= 3) {
                        throw new GpioDException("input/output error");
                    }
                    if (queue.isEmpty()) {
                        again.stop();
                    }
                    return !queue.isEmpty();
                })
                .when(line)
                .eventWait(anyLong());
        again.run();
        again.read(pulses);
        assertThat(pulses.count).isEqualTo(1);
    }

    @Test
    void shouldNotFailWhereASignalInterruptsOneWait() throws Exception {
        when(line.eventWait(anyLong())).thenAnswer(call -> failing(1));
        counter.run();
        counter.read(pulses);
        assertThat(pulses.count).isZero();
    }

    private boolean failing(int times) {
        calls++;
        if (calls == times) {
            counter.stop();
        }
        throw new GpioDException("c_gpiod_line_event_wait failed: -1 (Interrupted system call)");
    }
}
