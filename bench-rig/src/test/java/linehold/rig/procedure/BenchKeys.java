package linehold.rig.procedure;

import java.util.function.LongSupplier;

/** Bench keys for tests of other packages. */
public final class BenchKeys {
    private BenchKeys() {}

    /** Held from now on, until the clock has gone too far. */
    public static BenchKey held(LongSupplier clock) {
        BenchKey key = new BenchKey(clock, () -> "secret");
        key.take("a test").orElseThrow();
        return key;
    }
}
