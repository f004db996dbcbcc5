package linehold.rig.adapter.store;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.InstantSource;
import java.util.concurrent.TimeUnit;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRing;
import linehold.rig.loop.TickRow;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Writes every tick to a store, on a thread of its own. The loop never waits for it. Where the store is full or cannot be
 * written, recording stops, {@link RigFault#RECORDING_STOPPED} says so, and it is tried again every few seconds; what was
 * missed is counted in the recording.
 */
public final class Recorder implements AutoCloseable {
    static final Logger LOG = LoggerFactory.getLogger(Recorder.class);

    private static final long POLL_MS = 50;
    private static final long RETRY_NS = 2_000_000_000L;
    private static final long TIDY_NS = 10_000_000_000L;
    private static final long LONGEST_END_MS = 5000;
    /** A medium that takes longer than this has stopped the recording, whatever it says later. */
    private static final long LONGEST_WRITE_NS = 5_000_000_000L;

    private static final long WATCH_MS = 1000;

    private final BlockSink.Opener opener;
    private final TickRing.Cursor cursor;
    private final RigFaults faults;
    private final InstantSource wall;
    private final Thread thread = new Thread(this::run, "recorder");
    private final BlockBuffer block = new BlockBuffer();
    private final EventFinder events = new EventFinder();
    private final double[] row = new double[TickRow.LENGTH];
    private volatile boolean ending;
    private volatile boolean writing;
    private volatile long writingSinceNs;
    private BlockSink sink;
    private long missed;
    private long blockSinceNs;
    private long retryNs;
    private long tidyNs;

    /**
     * A recorder into a folder, which is made where it is missing. Nothing is touched before {@link #start}.
     *
     * @param cursor from before the loop's first tick
     */
    public static Recorder open(
            Path folder, RecordingFacts facts, TickRing.Cursor cursor, RigFaults faults, RecordingLimits limits) {
        InstantSource wall = InstantSource.system();
        return new Recorder(new RecordingOpener(folder, facts, limits, wall), cursor, faults, wall);
    }

    Recorder(BlockSink.Opener opener, TickRing.Cursor cursor, RigFaults faults, InstantSource wall) {
        this.opener = opener;
        this.cursor = cursor;
        this.faults = faults;
        this.wall = wall;
        thread.setPriority(Thread.MIN_PRIORITY);
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler((where, defect) -> {
            faults.set(RigFault.RECORDING_STOPPED, true);
            LOG.error("recording has ended by a defect; control goes on", defect);
        });
    }

    /**
     * Loads SQLite, which is native code and takes its time, on a thread of its own. Whoever calls this first and then does
     * something else has a store that opens sooner; nobody needs to.
     */
    public static void prepare() {
        Thread loader = new Thread(
                () -> {
                    try {
                        DriverManager.getConnection("jdbc:sqlite::memory:").close();
                    } catch (SQLException e) {
                        LOG.debug("SQLite cannot be loaded; the recorder will say so", e);
                    }
                },
                "recorder-loader");
        loader.setDaemon(true);
        loader.start();
    }

    /** Opens the store and writes into it, on the recorder's thread. */
    public void start() {
        thread.start();
        Thread watch = new Thread(this::watch, "recorder-watch");
        watch.setDaemon(true);
        watch.start();
    }

    /** A medium that hangs holds up the recorder's thread, so another one has to say so. */
    private void watch() {
        while (thread.isAlive()) {
            if (writing && System.nanoTime() - writingSinceNs > LONGEST_WRITE_NS) {
                faults.set(RigFault.RECORDING_STOPPED, true);
            }
            pause(WATCH_MS);
        }
    }

    /** Writes what has been published until now and ends the recording. Waits for a few seconds at most. */
    @Override
    public void close() {
        ending = true;
        try {
            thread.join(LONGEST_END_MS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void run() {
        // Before the first block is full: what is not open yet cannot keep it.
        open();
        boolean last = false;
        while (!last) {
            last = ending;
            while (cursor.read(row)) {
                take();
            }
            boolean old = block.rows > 0 && System.nanoTime() - blockSinceNs >= BlockBuffer.LONGEST_NS;
            if (old || last) {
                flush();
            }
            if (!last) {
                pause(POLL_MS);
            }
        }
        end();
    }

    private static void pause(long ms) {
        try {
            TimeUnit.MILLISECONDS.sleep(ms);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void take() {
        long more = cursor.missed() - missed;
        if (more > 0) {
            missed += more;
            flush();
            block.miss(more);
        }
        if (block.rows == 0) {
            blockSinceNs = System.nanoTime();
            if (block.missed > 0) {
                events.missed(block.firstTick, row, block.missed);
            }
        }
        events.see(block.firstTick + block.rows, row);
        block.add(row);
        if (block.full()) {
            flush();
        }
    }

    private void flush() {
        if (block.rows == 0) {
            return;
        }
        if (sink == null && System.nanoTime() - retryNs >= 0) {
            open();
        }
        if (sink == null) {
            lose();
            return;
        }
        writingSinceNs = System.nanoTime();
        writing = true;
        try {
            sink.append(block, events.take(), wall.millis());
            block.next();
            tidy();
            writing = false;
            faults.set(RigFault.RECORDING_STOPPED, false);
        } catch (SQLException | IOException e) {
            writing = false;
            lose();
            stop(e);
        }
    }

    private void open() {
        try {
            sink = opener.open();
            tidyNs = System.nanoTime();
        } catch (SQLException | IOException e) {
            stop(e);
        }
    }

    private void tidy() throws SQLException, IOException {
        if (System.nanoTime() - tidyNs >= 0) {
            sink.tidy();
            tidyNs = System.nanoTime() + TIDY_NS;
        }
    }

    private void stop(Exception reason) {
        if ((faults.bits() & RigFault.RECORDING_STOPPED.bit()) == 0) {
            LOG.warn("recording has stopped; control goes on: {}", reason.getMessage());
        }
        LOG.debug("recording cannot go on", reason);
        faults.set(RigFault.RECORDING_STOPPED, true);
        retryNs = System.nanoTime() + RETRY_NS;
        if (sink != null) {
            sink.abandon();
            sink = null;
        }
    }

    private void lose() {
        block.lose();
        events.restart();
    }

    private void end() {
        try {
            if (sink != null) {
                sink.end(wall.instant().toString());
            }
        } catch (SQLException e) {
            LOG.warn("the recording could not be ended in order; what it has is safe", e);
            sink.abandon();
        } finally {
            release();
        }
    }

    private void release() {
        try {
            opener.close();
        } catch (IOException e) {
            LOG.debug("letting go of the folder", e);
        }
    }
}
