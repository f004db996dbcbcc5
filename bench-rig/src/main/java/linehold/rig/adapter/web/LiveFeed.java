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

/**
 * Sends the ticks to every viewer, 25 times a second. It reads the ring on a thread of its own and encodes a batch once for
 * all; a viewer whose connection is slow misses batches, and the loop never knows of any.
 */
final class LiveFeed implements AutoCloseable {
    private static final long EVERY_NS = 40_000_000;
    /** A new viewer first gets this much of the past, s. */
    private static final double REMEMBERED_S = 60;
    /** Batches on their way to one viewer before it misses some: one second. */
    private static final int MOST_ON_THE_WAY = 25;

    private record Batch(double toS, String json) {}

    private final TickRing.Cursor cursor;
    private final Deque<Batch> past = new ArrayDeque<>();
    private final Map<WsContext, AtomicInteger> viewers = new ConcurrentHashMap<>();
    private final Thread thread;
    private volatile boolean closing;

    LiveFeed(TickRing ring) {
        cursor = ring.follow();
        thread = new Thread(this::run, "page-live");
        thread.setDaemon(true);
        thread.setPriority(Thread.MIN_PRIORITY);
    }

    void start() {
        thread.start();
    }

    /** A viewer comes: first what it has missed, then every batch. */
    void join(WsContext viewer) {
        synchronized (past) {
            for (Batch batch : past) {
                viewer.session.sendText(batch.json, Callback.NOOP);
            }
            viewers.put(viewer, new AtomicInteger());
        }
    }

    void leave(WsContext viewer) {
        viewers.remove(viewer);
    }

    private void run() {
        double[] row = new double[TickRow.LENGTH];
        LiveBatch batch = new LiveBatch();
        while (!closing) {
            while (cursor.read(row)) {
                batch.add(row);
            }
            if (!batch.isEmpty()) {
                send(new Batch(batch.lastS(), batch.takeJson()));
            }
            LockSupport.parkNanos(EVERY_NS);
        }
    }

    private void send(Batch batch) {
        synchronized (past) {
            past.addLast(batch);
            for (Iterator<Batch> it = past.iterator(); it.next().toS < batch.toS - REMEMBERED_S; ) {
                it.remove();
            }
            viewers.forEach((viewer, onTheWay) -> sendTo(viewer, onTheWay, batch.json));
        }
    }

    private static void sendTo(WsContext viewer, AtomicInteger onTheWay, String json) {
        if (onTheWay.get() >= MOST_ON_THE_WAY || !viewer.session.isOpen()) {
            return;
        }
        onTheWay.incrementAndGet();
        viewer.session.sendText(json, Callback.from(onTheWay::decrementAndGet, failure -> onTheWay.decrementAndGet()));
    }

    @Override
    public void close() {
        closing = true;
        viewers.keySet().forEach(WsContext::closeSession);
    }
}
