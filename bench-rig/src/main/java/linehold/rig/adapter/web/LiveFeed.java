package linehold.rig.adapter.web;

import io.javalin.websocket.WsContext;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import linehold.rig.loop.TickRing;
import linehold.rig.loop.TickRow;
import org.eclipse.jetty.websocket.api.Callback;
import org.eclipse.jetty.websocket.api.Session;

/**
 * Sends the ticks to every viewer, 25 times a second. It reads the ring on a thread of its own and encodes a batch once for
 * all. A viewer whose connection is slow misses batches, and one that takes none for ten seconds is let go of; the loop
 * never knows of any.
 */
final class LiveFeed implements AutoCloseable {
    private static final long EVERY_NS = 40_000_000;
    /** A new viewer first gets this much of the past, s. */
    private static final double REMEMBERED_S = 60;
    /** Batches on their way to one viewer before it misses some: one second. */
    static final int MOST_ON_THE_WAY = 25;
    /** Batches that a viewer may miss one after the other: ten seconds. It may come back, and then gets the past anew. */
    static final int MOST_MISSED = 250;
    /** More are refused, so that what is on its way to all has a bound. */
    static final int MOST_VIEWERS = 30;

    /** One who looks. Neither call may wait. */
    interface Viewer {
        /** @param done called once, on any thread, when nothing of it is kept here any more */
        void send(String json, Runnable done);

        void letGo();
    }

    private record Batch(double toS, String json) {}

    private static final class Place {
        final AtomicInteger onTheWay = new AtomicInteger();
        int missed;
    }

    private final TickRing.Cursor cursor;
    private final Deque<Batch> past = new ArrayDeque<>();
    private final Map<Viewer, Place> viewers = new ConcurrentHashMap<>();
    private final Thread thread;
    private final double[] row = new double[TickRow.LENGTH];
    private final LiveBatch next = new LiveBatch();
    private volatile boolean closing;

    LiveFeed(TickRing ring) {
        // Its time is that of the rig: a page opens some hundred ticks after the first.
        cursor = ring.recall();
        thread = new Thread(this::run, "page-live");
        thread.setDaemon(true);
        thread.setPriority(Thread.MIN_PRIORITY);
    }

    void start() {
        thread.start();
    }

    /** One whose socket this is; equal where the session is. */
    record Socket(Session session) implements Viewer {
        static Socket of(WsContext context) {
            return new Socket(context.session);
        }

        @Override
        public void send(String json, Runnable done) {
            session.sendText(json, Callback.from(done, failure -> done.run()));
        }

        @Override
        public void letGo() {
            session.disconnect();
        }
    }

    /**
     * A viewer comes: first what it has missed, then every batch.
     *
     * @return false where there are too many
     */
    boolean join(Viewer viewer) {
        synchronized (past) {
            if (viewers.size() >= MOST_VIEWERS) {
                return false;
            }
            for (Batch batch : past) {
                viewer.send(batch.json, () -> {});
            }
            viewers.put(viewer, new Place());
            return true;
        }
    }

    void leave(Viewer viewer) {
        viewers.remove(viewer);
    }

    int viewers() {
        return viewers.size();
    }

    private void run() {
        long dueNs = System.nanoTime();
        while (!closing) {
            pass();
            dueNs = Math.max(dueNs + EVERY_NS, System.nanoTime());
            for (long leftNs; (leftNs = dueNs - System.nanoTime()) > 0 && !closing; ) {
                LockSupport.parkNanos(leftNs);
            }
        }
    }

    /** Tells the ticks since the last pass. */
    void pass() {
        while (cursor.read(row)) {
            next.add(row);
        }
        if (next.isEmpty()) {
            return;
        }
        Batch batch = new Batch(next.lastS(), next.takeJson());
        synchronized (past) {
            past.addLast(batch);
            for (Iterator<Batch> it = past.iterator(); it.next().toS < batch.toS - REMEMBERED_S; ) {
                it.remove();
            }
            viewers.forEach((viewer, place) -> tell(viewer, place, batch.json));
        }
    }

    private void tell(Viewer viewer, Place place, String json) {
        if (place.onTheWay.get() < MOST_ON_THE_WAY) {
            place.missed = 0;
            place.onTheWay.incrementAndGet();
            viewer.send(json, place.onTheWay::decrementAndGet);
        } else if (++place.missed >= MOST_MISSED) {
            leave(viewer);
            viewer.letGo();
        }
    }

    @Override
    public void close() {
        closing = true;
        LockSupport.unpark(thread);
        viewers.keySet().forEach(Viewer::letGo);
    }
}
