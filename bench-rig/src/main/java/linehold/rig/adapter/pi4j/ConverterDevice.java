package linehold.rig.adapter.pi4j;

import com.pi4j.exception.Pi4JException;
import com.pi4j.io.i2c.I2C;
import linehold.rig.board.Gain;
import linehold.rig.port.PortException;

/**
 * The usual 16-bit converter with four channels on I2C: a conversion register at 0 and a configuration register at 1,
 * both 16 bits with the high byte first. One conversion at a time is started and waited for. Its layout is that of the
 * makers' data sheets, and common practice.
 */
final class ConverterDevice {
    private static final int CONVERSION = 0x00;
    private static final int CONFIGURATION = 0x01;
    /** Written: start. Read: no conversion is going on. */
    private static final int START_OR_READY = 0x8000;
    /** Channel 0 against ground; the others follow. */
    private static final int CHANNEL_0 = 0x4000;

    private static final int CHANNEL_SHIFT = 12;
    private static final int GAIN_SHIFT = 9;
    /** One conversion, then rest. */
    private static final int SINGLE = 0x0100;
    /** 860 conversions a second; comparator off. */
    private static final int FASTEST = 0x00e3;

    private final I2C device;
    private final byte[] two = new byte[2];
    private int written;

    ConverterDevice(I2C device) {
        this.device = device;
    }

    /** @throws PortException where the device does not answer */
    void start(int channel, Gain gain) throws PortException {
        written = START_OR_READY | CHANNEL_0 | channel << CHANNEL_SHIFT | gain.code() << GAIN_SHIFT | SINGLE | FASTEST;
        two[0] = (byte) (written >> 8);
        two[1] = (byte) written;
        try {
            device.writeRegister(CONFIGURATION, two);
        } catch (Pi4JException e) {
            throw new PortException(answer(e), e);
        }
    }

    /**
     * Whether the conversion is done.
     *
     * @throws PortException where the device does not answer, or does something else than it was told: it has been reset,
     *     or another has been spoken to
     */
    boolean ready() throws PortException {
        int now = register(CONFIGURATION);
        if ((now | START_OR_READY) != written) {
            throw new PortException(String.format("configuration reads 0x%04x after 0x%04x was written", now, written));
        }
        return (now & START_OR_READY) != 0;
    }

    /** The converter's number, signed. */
    int number() throws PortException {
        return (short) register(CONVERSION);
    }

    private int register(int register) throws PortException {
        try {
            int read = device.readRegister(register, two);
            if (read != two.length) {
                throw new PortException("register " + register + " gave " + read + " bytes, expected 2");
            }
        } catch (Pi4JException e) {
            throw new PortException(answer(e), e);
        }
        return (two[0] & 0xff) << 8 | two[1] & 0xff;
    }

    /** What the kernel said, below all that was wrapped around it. */
    private static String answer(Throwable e) {
        Throwable root = e;
        while (root.getCause() != null) {
            root = root.getCause();
        }
        return root.getMessage();
    }
}
