package linehold.rig.adapter.system;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.WritableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import linehold.simulator.build.InputException;

/**
 * The kernel's watchdog, such as {@code /dev/watchdog}: from opening it on, the board is reset unless it is written to.
 * A reset makes every line an input, and a normally closed contact then runs the pump (LH-RL-6). Interface: Linux,
 * Documentation/watchdog/watchdog-api.rst.
 */
public final class DeviceWatchdog extends TickWatch {
    /** Half a second: no driver in use takes a time-out below one. */
    private static final long INTERVAL_NS = 500_000_000;

    private static final byte ALIVE = 0;
    /** The one byte after which closing the device stops it. */
    private static final byte MAGIC_CLOSE = 'V';

    private final WritableByteChannel device;

    DeviceWatchdog(WritableByteChannel device) {
        super("device-watchdog", INTERVAL_NS);
        this.device = device;
    }

    /**
     * Opens the device, which starts its time.
     *
     * @throws InputException where it cannot be opened
     */
    public static DeviceWatchdog open(Path path) {
        try {
            // Never created: a plain file of that name would watch over nothing.
            DeviceWatchdog watchdog = new DeviceWatchdog(Files.newByteChannel(path, StandardOpenOption.WRITE));
            watchdog.start();
            return watchdog;
        } catch (IOException e) {
            boolean busy = String.valueOf(e.getMessage()).contains("busy");
            throw new InputException(
                    path + ": found "
                            + (busy
                                    ? "it in use"
                                    : "no way to open it (" + e.getClass().getSimpleName() + ")")
                            + ", expected a watchdog that no other program feeds, systemd's RuntimeWatchdogSec=off",
                    e);
        }
    }

    @Override
    void pass() throws IOException {
        device.write(ByteBuffer.wrap(new byte[] {ALIVE}));
    }

    @Override
    void end() throws IOException {
        device.write(ByteBuffer.wrap(new byte[] {MAGIC_CLOSE}));
        device.close();
    }
}
