package linehold.rig.port;

/** Edges of the speed pickup. They come on their own thread, so count and time of the last one are read as one. */
public interface PulseInput {
    /**
     * Writes edge count and time of the last edge, both of the same moment, without waiting.
     *
     * @throws PortException where the line has failed
     */
    void read(Pulses into) throws PortException;

    /** What a pickup has counted. */
    final class Pulses {
        /** Edges since the start. */
        public long count;
        /** Time of the last edge, ns, on the {@link RigClock}. */
        public long lastEdgeNs;
        /** Edges that are known to have been missed since the start; they are part of {@link #count}. */
        public long lost;
    }
}
