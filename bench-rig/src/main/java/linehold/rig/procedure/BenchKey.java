package linehold.rig.procedure;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Optional;
import java.util.function.LongSupplier;
import java.util.function.Supplier;

/**
 * The bench key: one browser at a time has it, and only while it is heard. Whoever has it shows a secret that nobody else
 * knows. For any thread; {@link #held} and {@link #lostWhy} never wait, so that the tick can ask.
 */
public final class BenchKey {
    /** A holder that has been silent for longer has lost it, ns; assumed: two lost heartbeats are no reason yet. */
    public static final long LONGEST_SILENCE_NS = 3_000_000_000L;

    static final String GIVEN_BACK = "The bench key was given back.";
    static final String SILENT = "The browser that held the bench key was not heard for 3 s.";

    private record Holder(String secret, String who) {}

    private final LongSupplier clock;
    private final Supplier<String> secrets;
    private volatile Holder holder;
    private volatile long heardNs;

    /**
     * @param clock monotonic, ns
     * @param secrets each one new and not to be guessed
     */
    public BenchKey(LongSupplier clock, Supplier<String> secrets) {
        this.clock = clock;
        this.secrets = secrets;
    }

    /**
     * Takes the key.
     *
     * @param who takes it, as others are told
     * @return the secret; empty where another one has it
     */
    synchronized Optional<String> take(String who) {
        if (held()) {
            return Optional.empty();
        }
        // The time first: a tick that sees the new holder must not see it with an old time.
        heardNs = clock.getAsLong();
        holder = new Holder(secrets.get(), who);
        return Optional.of(holder.secret);
    }

    /** A sign of life. A key that was lost by silence stays lost. @return whether the key is still the caller's */
    synchronized boolean renew(String secret) {
        if (!heldBy(secret)) {
            return false;
        }
        heardNs = clock.getAsLong();
        return true;
    }

    synchronized void giveBack(String secret) {
        if (heldBy(secret)) {
            holder = null;
        }
    }

    /** Whether somebody has it. */
    public boolean held() {
        return holder != null && clock.getAsLong() - heardNs <= LONGEST_SILENCE_NS;
    }

    /** Takes as long for a wrong secret as for the right one. */
    boolean heldBy(String secret) {
        Holder now = holder;
        return secret != null
                && now != null
                && held()
                && MessageDigest.isEqual(
                        secret.getBytes(StandardCharsets.UTF_8), now.secret.getBytes(StandardCharsets.UTF_8));
    }

    /** Who has it; null where nobody has. */
    public String who() {
        Holder now = holder;
        return now != null && held() ? now.who : null;
    }

    /** Why nobody has it, for the record of what ran then. */
    String lostWhy() {
        return holder == null ? GIVEN_BACK : SILENT;
    }
}
