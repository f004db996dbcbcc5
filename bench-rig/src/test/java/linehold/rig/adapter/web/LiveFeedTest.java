package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import linehold.controller.Controller;
import linehold.controller.calibration.Key;
import linehold.rig.adapter.simulated.SimulatedRig;
import linehold.rig.loop.ControlLoop;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.SteppedClock;
import linehold.rig.loop.TickRing;
import linehold.rig.port.Watchdog;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.drive.Drives;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Who looks never holds up the ticks or fills the memory. Passes are made between ticks, so that nothing depends on time. */
class LiveFeedTest {
    private static final int TICKS_PER_PASS = 8;
    private static final int TICKS_PER_S = 200;
    private static final int REMEMBERED_TICKS = 60 * TICKS_PER_S;

    private final TickRing ring = new TickRing(64);
    private final LiveFeed feed = new LiveFeed(ring);
    private long ticks;

    /** What a connection does: it keeps what it was given until somebody takes it. */
    private static final class FakeViewer implements LiveFeed.Viewer {
        final List<String> got = new ArrayList<>();
        final Deque<Runnable> onTheWay = new ArrayDeque<>();
        boolean letGo;
        private final boolean reads;

        FakeViewer(boolean reads) {
            this.reads = reads;
        }

        @Override
        public void send(String json, Runnable done) {
            got.add(json);
            onTheWay.add(done);
            if (reads) {
                takeAll();
            }
        }

        void takeAll() {
            while (!onTheWay.isEmpty()) {
                onTheWay.remove().run();
            }
        }

        @Override
        public void letGo() {
            letGo = true;
        }

        List<Double> times() {
            List<Double> times = new ArrayList<>();
            for (String json : got) {
                JsonNode t = PageServer.JSON.readTree(json).get("t");
                t.forEach(one -> times.add(one.asDouble()));
            }
            return times;
        }
    }

    /** @param afterPass told the number of the pass, from 1 */
    private void drive(int passes, java.util.function.IntConsumer afterPass) {
        Build build = BuildFile.loadNamed("demonstration");
        try (SimulatedRig car = new SimulatedRig(build, Drives.resolve("stop-and-go", build), 60, 1, List.of())) {
            Controller controller = new Controller(build.calibration());
            ControlLoop[] loop = new ControlLoop[1];
            loop[0] = new ControlLoop(
                    car,
                    (nowNs, in, out) -> {
                        controller.step(nowNs, in, out);
                        if (++ticks % TICKS_PER_PASS == 0) {
                            feed.pass();
                            afterPass.accept((int) (ticks / TICKS_PER_PASS));
                        }
                        if (ticks == (long) passes * TICKS_PER_PASS) {
                            loop[0].stop();
                        }
                    },
                    new SteppedClock(),
                    Watchdog.NONE,
                    build.calibration().is(Key.NORMALLY_CLOSED_CONTACT),
                    build.calibration().ns(Key.CONTROL_PERIOD),
                    new RigFaults(),
                    ring);
            loop[0].run();
        }
    }

    @Test
    void shouldLetGoOfAViewerWhoNeverReadsAndTellTheOthersEveryTick() {
        FakeViewer stuck = new FakeViewer(false);
        FakeViewer quick = new FakeViewer(true);
        feed.join(stuck);
        feed.join(quick);
        int passes = LiveFeed.MOST_ON_THE_WAY + LiveFeed.MOST_MISSED + 100;
        drive(passes, pass -> {
            boolean there = pass < LiveFeed.MOST_ON_THE_WAY + LiveFeed.MOST_MISSED;
            assertThat(stuck.letGo).as("pass %d", pass).isEqualTo(!there);
        });
        assertThat(stuck.got).hasSize(LiveFeed.MOST_ON_THE_WAY);
        assertThat(feed.viewers()).isEqualTo(1);
        assertThat(ring.published()).isEqualTo((long) passes * TICKS_PER_PASS);
        // The last tick is published after the last pass.
        List<Double> times = quick.times();
        assertThat(times).hasSize(passes * TICKS_PER_PASS - 1);
        for (int i = 0; i < times.size(); i++) {
            assertThat(times.get(i)).isEqualTo((double) i / TICKS_PER_S, org.assertj.core.data.Offset.offset(1e-9));
        }
    }

    @Test
    void shouldTellASlowViewerAgainOnceItReads() {
        FakeViewer slow = new FakeViewer(false);
        feed.join(slow);
        drive(300, pass -> {
            if (pass % 100 == 0) {
                slow.takeAll();
            }
        });
        assertThat(slow.letGo).isFalse();
        assertThat(slow.got).hasSize(3 * LiveFeed.MOST_ON_THE_WAY);
        assertThat(feed.viewers()).isEqualTo(1);
    }

    @Test
    void shouldTellALateComerTheLastMinuteAndNoMore() {
        drive(2000, pass -> {});
        FakeViewer late = new FakeViewer(true);
        feed.join(late);
        List<Double> times = late.times();
        assertThat(times.size()).isBetween(REMEMBERED_TICKS, REMEMBERED_TICKS + TICKS_PER_PASS);
        assertThat(times).isSorted();
    }

    @Test
    void shouldRefuseMoreViewersThanItsBound() {
        for (int i = 0; i < LiveFeed.MOST_VIEWERS; i++) {
            assertThat(feed.join(new FakeViewer(true))).isTrue();
        }
        assertThat(feed.join(new FakeViewer(true))).isFalse();
        assertThat(feed.viewers()).isEqualTo(LiveFeed.MOST_VIEWERS);
    }
}
