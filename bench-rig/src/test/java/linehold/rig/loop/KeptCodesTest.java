package linehold.rig.loop;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.management.ManagementFactory;
import linehold.controller.Controller;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.safety.StoredCodes;
import linehold.controller.safety.TroubleCode;
import linehold.simulator.build.Builds;
import org.junit.jupiter.api.Test;

class KeptCodesTest {
    private static final long PERIOD_NS = 5_000_000;

    private final Controller controller = new Controller(Builds.demonstration().calibration());
    private final KeptCodes codes = new KeptCodes(controller);
    private final Inputs in = new Inputs();
    private final Outputs out = new Outputs();
    private long nowNs;

    private void step(int ticks, double busVolts) {
        in.keyOn = true;
        in.busVolts = busVolts;
        for (int i = 0; i < ticks; i++) {
            nowNs += PERIOD_NS;
            codes.step(nowNs, in, out);
        }
    }

    @Test
    void shouldGiveACopyOnlyWhereACodeOrTheKeyCycleHasChanged() {
        assertThat(codes.take()).as("nothing yet").isNull();
        step(1, 12);
        assertThat(codes.take()).as("a key cycle begins").isNotNull();
        step(1, 12);
        assertThat(codes.take()).as("as before").isNull();
    }

    @Test
    void shouldGiveTheLatestCopyHoweverManyWereMade() {
        step(200, 12);
        step(200, 8);
        assertThat(out.activeCodes & TroubleCode.SUPPLY_LOW.bit()).isNotZero();
        step(200, 12);
        KeptCodes.Copy copy = codes.take();
        StoredCodes now = controller.storedCodes();
        StoredCodes kept = new Controller(Builds.demonstration().calibration()).storedCodes();
        kept.importFrom(copy.longs(), copy.doubles());
        assertThat(kept.stored()).isEqualTo(now.stored());
        for (TroubleCode code : TroubleCode.values()) {
            assertThat(kept.count(code)).isEqualTo(now.count(code));
        }
        assertThat(copy.atNs()).isBetween(1L, nowNs);
        assertThat(codes.take()).isNull();
    }

    @Test
    void shouldKeepTheTimeOfACodeThatStaysActive() {
        step(400, 8);
        codes.take();
        step(6000, 8);
        KeptCodes.Copy copy = codes.take();
        assertThat(nowNs - copy.atNs()).isBetween(0L, 10_000_000_000L);
    }

    @Test
    void shouldAllocateNothing() {
        var threads = (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
        long[] bytes = new long[2];
        for (int round = 0; round < bytes.length; round++) {
            long before = threads.getThreadAllocatedBytes(Thread.currentThread().getId());
            for (int i = 0; i < 20; i++) {
                step(200, i % 2 == 0 ? 12 : 8);
            }
            bytes[round] =
                    threads.getThreadAllocatedBytes(Thread.currentThread().getId()) - before;
        }
        assertThat(bytes[1]).as("bytes, once everything is loaded").isZero();
    }
}
