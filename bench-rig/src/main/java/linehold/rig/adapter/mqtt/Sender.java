package linehold.rig.adapter.mqtt;

import java.util.Objects;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.RigFaults;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Empties the outbox into the broker, one message after the other, and finds its way back to it for as long as it takes. An
 * event leaves the outbox for good only when it is acknowledged. {@link RigFault#TELEMETRY_OFFLINE} tells how it stands.
 */
final class Sender implements Runnable {
    static final Logger LOG = LoggerFactory.getLogger(Sender.class);

    private static final long IDLE_MS = 500;

    private final MqttSettings settings;
    private final Times times;
    private final Outbox outbox;
    private final byte[] about;
    private final RigFaults faults;
    private final BackOff backOff;
    /** Null while nobody wants to leave. */
    private volatile Long leaveByNs;

    private String trouble;

    Sender(MqttSettings settings, Times times, Outbox outbox, byte[] about, RigFaults faults) {
        this.settings = settings;
        this.times = times;
        this.outbox = outbox;
        this.about = about;
        this.faults = faults;
        // Differs from rig to rig and is the same at every start.
        SplittableRandom random = new SplittableRandom(settings.prefix.hashCode());
        backOff = new BackOff(times.firstWaitMs(), times.longestWaitMs(), random);
    }

    /** Delivers what is left for so long and no longer. */
    void leaveSoon() {
        leaveByNs = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(times.leaveMs());
        outbox.close();
    }

    @Override
    public void run() {
        faults.set(RigFault.TELEMETRY_OFFLINE, true);
        try {
            while (!outbox.closed()) {
                beConnected();
                faults.set(RigFault.TELEMETRY_OFFLINE, true);
                outbox.pause(backOff.nextMs());
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** One connection: from trying to losing it. */
    private void beConnected() throws InterruptedException {
        Long steadyFromNs = null;
        try (Link link = Link.open(settings, times)) {
            steadyFromNs = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(times.steadyMs());
            link.publish(Topic.STATUS, Payloads.ONLINE);
            link.publish(Topic.ABOUT, about);
            faults.set(RigFault.TELEMETRY_OFFLINE, false);
            trouble = null;
            outbox.tellStateAgain();
            empty(link);
        } catch (MqttException | RuntimeException e) {
            tell(e);
        }
        if (steadyFromNs != null && System.nanoTime() - steadyFromNs > 0) {
            backOff.reset();
        }
    }

    private void empty(Link link) throws MqttException, InterruptedException {
        while (link.alive()) {
            Message message = outbox.take(IDLE_MS);
            if (message != null) {
                deliver(link, message);
            } else if (outbox.closed()) {
                leave(link);
                return;
            }
            if (leaveByNs != null && System.nanoTime() - leaveByNs > 0) {
                leave(link);
                return;
            }
        }
        throw new IllegalStateException("the connection is lost");
    }

    private void deliver(Link link, Message message) throws MqttException {
        try {
            link.publish(message.topic(), message.payload());
        } catch (MqttException | RuntimeException e) {
            outbox.putBack(message);
            throw e;
        }
    }

    private static void leave(Link link) throws MqttException {
        link.publish(Topic.STATUS, Payloads.OFFLINE);
        link.leave();
    }

    /** Once for every kind of trouble, not once for every try. */
    private void tell(Exception e) {
        String now = Trouble.of(e);
        if (!Objects.equals(now, trouble) && !outbox.closed()) {
            LOG.warn("telemetry has no broker at {}: {}; control goes on, and it is tried again", settings.uri, now);
        }
        trouble = now;
    }
}
