package linehold.rig.adapter.mqtt;

import static org.assertj.core.api.Assertions.fail;

import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;

/** Waits for what another thread or program does. */
final class Await {
    /** Far beyond what it takes, so that a loaded machine fails no test. */
    private static final long LONGEST_S = 60;

    private Await() {}

    static void until(String what, BooleanSupplier condition) throws InterruptedException {
        long endNs = System.nanoTime() + TimeUnit.SECONDS.toNanos(LONGEST_S);
        while (!condition.getAsBoolean()) {
            if (System.nanoTime() > endNs) {
                fail("not within " + LONGEST_S + " s: " + what);
            }
            Thread.sleep(20);
        }
    }
}
