package linehold.rig.board;

/**
 * An analog-to-digital converter on I2C.
 *
 * @param bus number of the bus: n of /dev/i2c-n
 * @param address seven bits
 * @param oldestNs a value older than this is absent, ns
 */
public record Converter(int bus, int address, long oldestNs) {}
