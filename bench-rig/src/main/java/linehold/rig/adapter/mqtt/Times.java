package linehold.rig.adapter.mqtt;

/**
 * How patient the connection is.
 *
 * @param connectS longest time to connect, s
 * @param keepAliveS silence after which either side asks whether the other is there, s
 * @param answerMs longest time until the broker acknowledges, ms
 * @param firstWaitMs wait after the first failure, ms
 * @param longestWaitMs longest wait between two tries, ms
 * @param steadyMs a connection that lasted so long was good: the next failure is a first one, ms
 * @param leaveMs longest time to deliver what is left at the end, ms
 */
record Times(
        int connectS,
        int keepAliveS,
        long answerMs,
        long firstWaitMs,
        long longestWaitMs,
        long steadyMs,
        long leaveMs) {
    /** Common practice for a workshop's network and a mobile one. */
    static final Times USUAL = new Times(10, 15, 10_000, 1000, 30_000, 10_000, 2000);
}
