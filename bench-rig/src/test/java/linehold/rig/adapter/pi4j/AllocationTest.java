package linehold.rig.adapter.pi4j;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import linehold.rig.board.Gain;
import linehold.rig.board.Thermistor;
import linehold.rig.board.Wire;
import linehold.rig.port.PortException;
import linehold.rig.port.PulseInput.Pulses;
import org.junit.jupiter.api.Test;

/** What a tick reads of a board leaves no garbage, also while it fails. */
class AllocationTest {
    private static final int ROUNDS = 20_000;
    /** A first call may load a class or grow a counter; one object a call would be 320 kB. */
    private static final long NOTHING = 20_000;

    private long nowNs = 1_000_000;
    private double sum;

    private interface Act {
        void run() throws PortException;
    }

    private static long allocated(Act act) {
        ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
        long thread = Thread.currentThread().getId();
        for (int i = 0; i < ROUNDS; i++) {
            attempt(act);
        }
        long before = threads.getThreadAllocatedBytes(thread);
        for (int i = 0; i < ROUNDS; i++) {
            attempt(act);
        }
        return threads.getThreadAllocatedBytes(thread) - before;
    }

    private static void attempt(Act act) {
        try {
            act.run();
        } catch (PortException e) {
            assert e.getMessage() != null;
        }
    }

    @Test
    void shouldReadAChannelWithoutGarbageWhetherFreshOrTooOld() {
        ChannelValue value = new ChannelValue();
        value.set(20_000, nowNs);
        Thermistor thermistor = new Thermistor(1000, new double[] {0, 100}, new double[] {5000, 200});
        Wire.Analog wire = new Wire.Analog(1, 0, Gain.V4_096, 1, thermistor);
        ChannelInput input = new ChannelInput(value, wire, 1000, () -> 5, () -> nowNs);

        assertThat(allocated(() -> sum += input.read())).isLessThan(NOTHING);
        assertThat(sum).isNotNaN();
        nowNs += 1_000_000_000;
        assertThat(allocated(() -> sum += input.read())).isLessThan(NOTHING);
    }

    @Test
    void shouldReadThePickupWithoutGarbage() {
        EdgeCounter counter = new EdgeCounter(null, null, true, () -> nowNs);
        Pulses pulses = new Pulses();
        for (int i = 1; i < 100; i++) {
            counter.take(true, i * 1_000_000L);
            counter.take(false, i * 1_000_000L + 500_000);
        }

        assertThat(allocated(() -> counter.read(pulses))).isLessThan(NOTHING);
        assertThat(pulses.count).isEqualTo(99);
    }
}
