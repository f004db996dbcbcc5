package linehold.rig.adapter.mqtt;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;

/**
 * What waits to be published, bounded. Where it is full the oldest sample goes, then the oldest event; lost events are
 * counted, and a message in their place says which. Of states only the newest waits. For one thread that puts and one that
 * takes.
 */
final class Outbox {
    /** Number of the message that stands for lost events. */
    private static final long NOTICE = -1;

    private final int capacity;
    private final Function<Loss, byte[]> notice;
    private final Deque<Message> events = new ArrayDeque<>();
    private final Deque<Message> samples = new ArrayDeque<>();
    private Message state;
    private boolean stateTold;
    private long newestSeq = -1;
    /** Nobody has been told of it; null where nothing is lost. */
    private Loss untold;

    private Loss beingTold;
    private long lostEvents;
    private boolean closed;

    /**
     * @param capacity events and samples together
     * @param notice payload of the event that tells a loss
     */
    Outbox(int capacity, Function<Loss, byte[]> notice) {
        this.capacity = capacity;
        this.notice = notice;
    }

    /** @param seq greater than that of the event before */
    synchronized void event(long seq, byte[] payload) {
        makeRoom();
        events.addLast(new Message(Topic.EVENT, seq, payload));
        newestSeq = seq;
        notifyAll();
    }

    synchronized void sample(byte[] payload) {
        if (events.size() < capacity) {
            makeRoom();
            samples.addLast(new Message(Topic.SAMPLE, newestSeq, payload));
            notifyAll();
        }
    }

    /** Replaces the state that waits. */
    synchronized void state(byte[] payload) {
        state = new Message(Topic.STATE, newestSeq, payload);
        stateTold = false;
        notifyAll();
    }

    private void makeRoom() {
        if (events.size() + samples.size() < capacity || samples.pollFirst() != null) {
            return;
        }
        untold = Loss.of(events.removeFirst().number()).plus(untold);
        lostEvents++;
    }

    /** Since the start. */
    synchronized long lostEvents() {
        return lostEvents;
    }

    /**
     * Takes the next message out. Whoever cannot deliver it puts it back.
     *
     * @return null where none came in time, or at once where there is none and none will come
     */
    synchronized Message take(long longestMs) throws InterruptedException {
        long endNs = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(longestMs);
        Message next = next();
        while (next == null && waitUntil(endNs)) {
            next = next();
        }
        return next;
    }

    private Message next() {
        long event = events.isEmpty() ? Long.MAX_VALUE : events.peekFirst().number();
        if (untold != null && event > untold.last()) {
            beingTold = untold;
            untold = null;
            return new Message(Topic.EVENT, NOTICE, notice.apply(beingTold));
        }
        if (state != null && !stateTold && event > state.number()) {
            stateTold = true;
            return state;
        }
        if (!samples.isEmpty() && event > samples.peekFirst().number()) {
            return samples.removeFirst();
        }
        return events.pollFirst();
    }

    /** It could not be delivered: it is the next one again. */
    synchronized void putBack(Message message) {
        switch (message.topic()) {
            case EVENT -> {
                if (message.number() == NOTICE) {
                    untold = beingTold.plus(untold);
                } else {
                    events.addFirst(message);
                }
            }
            case SAMPLE -> samples.addFirst(message);
            case STATE, STATUS, ABOUT -> stateTold = false;
        }
    }

    /** A broker that has started anew may have forgotten: the newest state is sent once more. */
    synchronized void tellStateAgain() {
        stateTold = false;
    }

    /** Nothing more comes; what is there can still be taken. */
    synchronized void close() {
        closed = true;
        notifyAll();
    }

    synchronized boolean closed() {
        return closed;
    }

    /** Waits, but not beyond the end. */
    synchronized void pause(long ms) throws InterruptedException {
        long endNs = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(ms);
        while (waitUntil(endNs)) {
            // woken by a message
        }
    }

    /** @return false where the time is up or nothing more comes */
    private boolean waitUntil(long endNs) throws InterruptedException {
        long leftMs = TimeUnit.NANOSECONDS.toMillis(endNs - System.nanoTime());
        if (closed || leftMs <= 0) {
            return false;
        }
        wait(leftMs);
        return true;
    }
}
