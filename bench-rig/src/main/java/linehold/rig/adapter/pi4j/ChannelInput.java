package linehold.rig.adapter.pi4j;

import java.util.function.LongSupplier;
import linehold.rig.board.Wire;
import linehold.rig.port.AnalogInput;
import linehold.rig.port.PortException;

/** A converter's channel as a quantity. Reads what the bus's thread has left, and never the bus. */
final class ChannelInput implements AnalogInput {
    private final ChannelValue value;
    private final Wire.Analog wire;
    private final long oldestNs;
    private final AnalogInput supply;
    private final LongSupplier clock;
    private final PortException tooOld;

    /**
     * @param oldestNs a value older than this has failed, ns
     * @param supply of the senders, V
     */
    ChannelInput(ChannelValue value, Wire.Analog wire, long oldestNs, AnalogInput supply, LongSupplier clock) {
        this.value = value;
        this.wire = wire;
        this.oldestNs = oldestNs;
        this.supply = supply;
        this.clock = clock;
        tooOld = new PortException("channel " + wire.channel() + " of adc-" + wire.converter()
                + " has no value of the last " + oldestNs / 1_000_000 + " ms");
    }

    @Override
    public double read() throws PortException {
        long word = value.get();
        if (ChannelValue.isOlder(word, oldestNs, clock.getAsLong())) {
            throw tooOld;
        }
        double volts = wire.gain().volts(ChannelValue.numberOf(word)) * wire.divider();
        return wire.conversion().at(volts, supply.read());
    }
}
