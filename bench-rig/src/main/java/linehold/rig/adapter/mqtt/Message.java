package linehold.rig.adapter.mqtt;

/**
 * What is to be published.
 *
 * @param number {@code seq} of an event; of a state or sample that of the newest event before it
 */
record Message(Topic topic, long number, byte[] payload) {}
