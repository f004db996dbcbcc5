package linehold.rig.adapter.pi4j;

import com.pi4j.library.gpiod.internal.GpioDException;
import com.pi4j.library.gpiod.internal.GpioLine;
import com.pi4j.library.gpiod.internal.GpioLineEvent;
import com.pi4j.library.gpiod.internal.LineEvent;
import java.util.concurrent.atomic.AtomicLongArray;
import java.util.concurrent.locks.LockSupport;
import java.util.function.LongSupplier;
import linehold.rig.port.PortException;
import linehold.rig.port.PulseInput;

/**
 * Counts the edges of the pickup on a thread of its own, by the kernel's time of each.
 *
 * <p>Both edges are asked for, one of them counts. Two of the uncounted kind in a row mean that one between them was
 * missed. The kernel keeps 16 edges for a reader that is late and drops what comes then (Linux, drivers/gpio/gpiolib-cdev.c,
 * line events of version 1): after 16 without a pause the gap before the next counted edge is filled by the period of
 * before. What was missed is counted together with the next edge that is seen, so that speed stays right.
 */
final class EdgeCounter implements PulseInput, Runnable {
    /** Linux keeps this many edges of a line. */
    private static final int KERNEL_KEEPS = 16;

    private static final long WAIT_NS = 10_000_000;
    private static final long RETRY_NS = 100_000_000;
    /** A signal to the process may interrupt one wait; a line that is gone fails every time. */
    private static final int FAILED_FROM = 3;
    /** A time of the kernel further ahead than this, or further back, is of another clock (before Linux 5.7). */
    private static final long AHEAD_NS = 1_000_000;

    private static final long BACK_NS = 2_000_000_000L;

    /** The last places of the ring are never read while they are written: a reader would have to be 15 edges slow. */
    private static final int RING = 16;

    private static final int FIELDS = 3;

    private final GpioLine line;
    private final GpioLineEvent event;
    private final LineEvent counted;
    private final LongSupplier clock;
    private final PortException failure;
    private final AtomicLongArray ring = new AtomicLongArray(RING * FIELDS);
    private volatile long published;
    private volatile boolean failed;
    private volatile boolean stopping;

    private long count;
    private long lost;
    private long lastEdgeNs;
    private long lastPeriodNs;
    private long missedSince;
    private boolean lastWasCounted = true;
    private int withoutPause;
    private int failures;
    private boolean overflown;

    /**
     * @param event where the native layer puts each edge
     * @param risingEdge which edge counts
     * @param clock monotonic, ns; the kernel's times are of the same
     */
    EdgeCounter(GpioLine line, GpioLineEvent event, boolean risingEdge, LongSupplier clock) {
        this.line = line;
        this.event = event;
        this.counted = risingEdge ? LineEvent.RISING_EDGE : LineEvent.FALLING_EDGE;
        this.clock = clock;
        failure = new PortException("line of the pickup gives no edges");
    }

    @Override
    public void run() {
        while (!stopping) {
            try {
                waitAndTake();
                failures = 0;
                failed = false;
            } catch (GpioDException e) {
                failures++;
                if (failures >= FAILED_FROM) {
                    failed = true;
                    LockSupport.parkNanos(RETRY_NS);
                }
            }
        }
    }

    /** Ends the thread within some 10 ms. */
    void stop() {
        stopping = true;
    }

    private void waitAndTake() {
        if (!line.eventWait(0)) {
            withoutPause = 0;
            if (!line.eventWait(WAIT_NS)) {
                return;
            }
        }
        line.eventRead(event);
        withoutPause++;
        overflown |= withoutPause >= KERNEL_KEEPS;
        take(event.getType() == counted, plausible(event.getTimeNs()));
    }

    private long plausible(long kernelNs) {
        long nowNs = clock.getAsLong();
        boolean sameClock = kernelNs - nowNs < AHEAD_NS && nowNs - kernelNs < BACK_NS;
        return sameClock ? kernelNs : nowNs;
    }

    /** One edge, in the order of the kernel. */
    void take(boolean isCounted, long edgeNs) {
        if (isCounted) {
            count(edgeNs);
        } else if (!lastWasCounted) {
            missedSince++;
        }
        lastWasCounted = isCounted;
    }

    private void count(long edgeNs) {
        long gapNs = edgeNs - lastEdgeNs;
        if (overflown && count > 0 && lastPeriodNs > 0) {
            missedSince = Math.max(missedSince, Math.round((double) gapNs / lastPeriodNs) - 1);
        }
        // An overflow shows in the first long gap after it; without one nothing was dropped.
        overflown &= missedSince == 0 && withoutPause >= KERNEL_KEEPS;
        lastPeriodNs = count > 0 ? gapNs / (1 + missedSince) : 0;
        count += 1 + missedSince;
        lost += missedSince;
        missedSince = 0;
        lastEdgeNs = edgeNs;
        publish();
    }

    private void publish() {
        long next = published + 1;
        int at = (int) (next % RING) * FIELDS;
        ring.set(at, count);
        ring.set(at + 1, lastEdgeNs);
        ring.set(at + 2, lost);
        published = next;
    }

    /** Never waits for the thread that counts: it reads a place that is complete, and again only if it was lapped. */
    @Override
    public void read(Pulses into) throws PortException {
        if (failed) {
            throw failure;
        }
        long seen;
        do {
            seen = published;
            int at = (int) (seen % RING) * FIELDS;
            into.count = ring.get(at);
            into.lastEdgeNs = ring.get(at + 1);
            into.lost = ring.get(at + 2);
        } while (published - seen >= RING - 1);
    }
}
