package linehold.rig.adapter.mqtt;

import java.time.Instant;
import java.time.InstantSource;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRing;
import linehold.rig.loop.TickRow;
import linehold.rig.port.RigClock;

/**
 * Tells a broker what the rig does; {@code docs/mqtt.md} says what. One thread reads the ring, another one talks to the
 * broker, and neither can delay a tick. Nothing is subscribed to: what arrives over the network can do nothing here.
 */
public final class MqttTelemetry implements AutoCloseable {
    private static final long POLL_MS = 50;
    /** Events and samples that wait: 13 minutes of samples; about 2 MB. */
    private static final int OUTBOX_MESSAGES = 4096;

    private final TickRing.Cursor cursor;
    private final RigClock clock;
    private final InstantSource wall;
    private final Outbox outbox;
    private final RowWatcher watcher;
    private final Sender sender;
    private final Times times;
    private final CountDownLatch ending = new CountDownLatch(1);
    private final Thread reading = new Thread(this::read, "telemetry-read");
    private final Thread sending;
    private final double[] row = new double[TickRow.LENGTH];
    private long missed;
    private boolean lossTold;

    private MqttTelemetry(
            MqttSettings settings,
            Times times,
            int outboxMessages,
            TickRing.Cursor cursor,
            RigFaults faults,
            RigIdentity identity,
            RigClock clock,
            InstantSource wall) {
        this.cursor = cursor;
        this.clock = clock;
        this.wall = wall;
        this.times = times;
        Payloads payloads = new Payloads(identity, wall.instant());
        outbox = new Outbox(outboxMessages, payloads::eventsLost);
        watcher = new RowWatcher(payloads, outbox);
        sender = new Sender(settings, times, outbox, payloads.about(), faults);
        sending = new Thread(sender, "telemetry-send");
        for (Thread thread : new Thread[] {reading, sending}) {
            thread.setPriority(Thread.MIN_PRIORITY);
            thread.setDaemon(true);
            thread.setUncaughtExceptionHandler((where, defect) -> {
                faults.set(RigFault.TELEMETRY_OFFLINE, true);
                Sender.LOG.error("telemetry has ended by a defect; control goes on", defect);
            });
        }
    }

    /**
     * Telemetry that is not yet running; nothing is touched before {@link #start}.
     *
     * @param cursor from before the loop's first tick
     * @param clock by which the ticks are stamped
     */
    public static MqttTelemetry open(
            MqttSettings settings, TickRing.Cursor cursor, RigFaults faults, RigIdentity identity, RigClock clock) {
        return open(settings, Times.USUAL, OUTBOX_MESSAGES, cursor, faults, identity, clock);
    }

    static MqttTelemetry open(
            MqttSettings settings,
            Times times,
            int outboxMessages,
            TickRing.Cursor cursor,
            RigFaults faults,
            RigIdentity identity,
            RigClock clock) {
        settings.warnings().forEach(Sender.LOG::warn);
        return new MqttTelemetry(
                settings, times, outboxMessages, cursor, faults, identity, clock, InstantSource.system());
    }

    /** Returns at once, also where there is no broker. */
    public void start() {
        reading.start();
        sending.start();
    }

    /** Tells the end, delivers what is left if there is a broker, and leaves. Waits for a few seconds at most. */
    @Override
    public void close() {
        ending.countDown();
        try {
            reading.join(times.leaveMs());
            sender.leaveSoon();
            sending.join(2 * times.leaveMs());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void read() {
        try {
            boolean last;
            do {
                last = ending.await(POLL_MS, TimeUnit.MILLISECONDS);
                readRows();
                tellLoss();
            } while (!last);
            watcher.end();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void readRows() {
        Instant now = wall.instant();
        long wallNs = TimeUnit.SECONDS.toNanos(now.getEpochSecond()) + now.getNano();
        long wallMinusRigNs = wallNs - clock.nowNs();
        while (cursor.read(row)) {
            if (cursor.missed() > missed) {
                watcher.missed(cursor.missed() - missed);
                missed = cursor.missed();
            }
            watcher.see(row, wallMinusRigNs);
        }
        watcher.tellState();
    }

    private void tellLoss() {
        if (!lossTold && outbox.lostEvents() > 0) {
            lossTold = true;
            Sender.LOG.warn(
                    "telemetry has been without a broker for so long that it drops its oldest events; the broker is"
                            + " told how many");
        }
    }
}
