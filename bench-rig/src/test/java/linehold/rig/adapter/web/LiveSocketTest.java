package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.Socket;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;

/** The live feed over real sockets. */
class LiveSocketTest {
    private static void await(String what, BooleanSupplier reached) throws InterruptedException {
        long endNs = System.nanoTime() + Duration.ofSeconds(60).toNanos();
        while (!reached.getAsBoolean()) {
            assertThat(System.nanoTime()).as(what).isLessThan(endNs);
            Thread.sleep(20);
        }
    }

    @Test
    void shouldLetGoOfASocketThatIsNeverReadWhileTenOthersAreToldEveryTick() throws Exception {
        try (FastRig rig = new FastRig("stop-and-go", 4).start();
                PageServer server = new PageServer(PageSettings.loopback(0), Map.of(), rig.ring, List.of())) {
            server.start();
            List<LiveViewers.Reader> readers = new ArrayList<>();
            for (int i = 0; i < 10; i++) {
                readers.add(LiveViewers.Reader.open(server.port(), true));
            }
            try (Socket silent = LiveViewers.silent(server.port())) {
                await("eleven look", () -> server.viewers() == 11);
                await("the silent one is let go of", () -> server.viewers() == 10);
                assertThat(silent.isClosed()).isFalse();
            }
            assertThat(rig.running()).isTrue();
            List<String> first = null;
            for (LiveViewers.Reader reader : readers) {
                int count = reader.count();
                await("it is still told", () -> reader.count() > count);
                reader.close();
                List<String> told = reader.batches();
                // All were told the same from the first tick on, one earlier in the loop a little less of it.
                first = first == null ? told : first;
                assertThat(told.subList(0, first.size()).equals(first)).isTrue();
            }
            assertThat(first).hasSizeGreaterThan(LiveFeed.MOST_MISSED);
        }
    }
}
