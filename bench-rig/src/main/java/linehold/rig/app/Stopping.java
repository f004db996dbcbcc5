package linehold.rig.app;

import linehold.rig.loop.ControlLoop;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** How a program with a control loop comes to its end. */
final class Stopping {
    /** A tick that has not ended by then will not. */
    static final long LONGEST_STOP_MS = 2000;

    private static final Logger LOG = LoggerFactory.getLogger(Stopping.class);

    private Stopping() {}

    /** Lets the tick of the moment end, so that the outputs are set to their safe levels by the thread that owns them. */
    static void end(ControlLoop loop, Thread thread) {
        loop.stop();
        try {
            thread.join(LONGEST_STOP_MS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** The program ends by itself; where it was told to end, the hook is running already and stays. */
    static void removeHook(Thread hook) {
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException e) {
            LOG.debug("stopping already", e);
        }
    }
}
