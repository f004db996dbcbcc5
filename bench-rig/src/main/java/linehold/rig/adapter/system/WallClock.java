package linehold.rig.adapter.system;

import java.time.Clock;
import java.time.InstantSource;

/** The time of day, for the dates of records alone: no decision depends on it. */
public final class WallClock {
    private WallClock() {}

    public static InstantSource utc() {
        return Clock.systemUTC();
    }
}
