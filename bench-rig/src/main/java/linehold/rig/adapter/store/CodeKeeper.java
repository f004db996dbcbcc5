package linehold.rig.adapter.store;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import linehold.controller.safety.StoredCodes;
import linehold.rig.loop.KeptCodes;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.RigFaults;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Keeps the controller's stored trouble codes over a loss of power (LH-TC-1): gives them back before the first step, and
 * writes them, on a thread of its own, whenever they change. A file that cannot be read or written is a fault of the rig
 * and stops nothing.
 */
public final class CodeKeeper implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(CodeKeeper.class);
    private static final long POLL_MS = 100;
    private static final long RETRY_MS = 5000;
    private static final long LONGEST_END_MS = 2000;

    private final CodeFile file;
    private final RigFaults faults;
    private final InstantSource wall;
    private KeptCodes codes;
    private Thread thread;
    private final CountDownLatch ended = new CountDownLatch(1);

    public CodeKeeper(Path file, RigFaults faults) {
        this(file, faults, InstantSource.system());
    }

    CodeKeeper(Path file, RigFaults faults, InstantSource wall) {
        this.file = new CodeFile(file);
        this.faults = faults;
        this.wall = wall;
    }

    /**
     * Gives a controller that has not stepped yet the codes that were kept; none where there are none.
     *
     * @param rigNowNs present time, ns, on the rig's clock
     */
    public void restore(StoredCodes into, long rigNowNs) {
        try {
            CodeFile.Content kept = file.read();
            if (kept != null) {
                // A board without a battery clock may think that it is earlier than it was; a code is never from later
                // on.
                long laterNs = rigNowNs - kept.rigNs() - Math.max(0, ns(wall.instant()) - kept.wallNs());
                into.importFrom(kept.longs(), kept.doubles(), laterNs);
            }
        } catch (IOException | IllegalArgumentException e) {
            LOG.warn("the stored trouble codes cannot be read, and begin anew: {}", e.getMessage());
            LOG.debug("trouble codes cannot be read", e);
            faults.set(RigFault.CODES_NOT_KEPT, true);
        }
    }

    /** Writes the codes from now on. */
    public void start(KeptCodes source) {
        codes = source;
        thread = new Thread(this::run, "code-keeper");
        thread.setDaemon(true);
        thread.start();
    }

    private void run() {
        boolean last = false;
        while (!last) {
            last = ended();
            KeptCodes.Copy copy = codes.take();
            while (copy != null && !write(copy) && !ended()) {
                pause(RETRY_MS);
                KeptCodes.Copy younger = codes.take();
                copy = younger == null ? copy : younger;
            }
            if (!last) {
                pause(POLL_MS);
            }
        }
    }

    private boolean write(KeptCodes.Copy copy) {
        try {
            file.write(ns(wall.instant()), copy.atNs(), copy.longs(), copy.doubles());
            faults.set(RigFault.CODES_NOT_KEPT, false);
            return true;
        } catch (IOException e) {
            if ((faults.bits() & RigFault.CODES_NOT_KEPT.bit()) == 0) {
                LOG.warn("the stored trouble codes cannot be written: {}", e.getMessage());
            }
            LOG.debug("trouble codes cannot be kept", e);
            faults.set(RigFault.CODES_NOT_KEPT, true);
            return false;
        }
    }

    private boolean ended() {
        return ended.getCount() == 0;
    }

    private void pause(long ms) {
        try {
            ended.await(ms, TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            ended.countDown();
        }
    }

    private static long ns(Instant instant) {
        return TimeUnit.SECONDS.toNanos(instant.getEpochSecond()) + instant.getNano();
    }

    /** Writes what is new and ends. */
    @Override
    public void close() {
        ended.countDown();
        if (thread != null) {
            try {
                thread.join(LONGEST_END_MS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
    }
}
