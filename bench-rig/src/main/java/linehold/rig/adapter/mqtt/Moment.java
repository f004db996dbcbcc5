package linehold.rig.adapter.mqtt;

import java.time.Instant;

/**
 * When.
 *
 * @param uptimeNs since the first tick, ns; steady
 * @param utc by the wall clock, which may be wrong until something has set it
 */
record Moment(long uptimeNs, Instant utc) {}
