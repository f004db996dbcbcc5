package linehold.rig.adapter.system;

import com.sun.jna.LastErrorException;
import com.sun.jna.NativeLong;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;

/**
 * Tells a service manager, by the protocol of sd_notify(3), that the first tick is done ({@code READY=1}), that ticks go on
 * ({@code WATCHDOG=1}) and that the program ends ({@code STOPPING=1}). Without ticks for {@code WatchdogSec} the manager
 * kills the program and starts it again, and a start begins with the pump running.
 */
public final class ServiceWatchdog extends TickWatch {
    private static final String SOCKET = "NOTIFY_SOCKET";
    private static final String WATCHDOG_US = "WATCHDOG_USEC";
    private static final long SLOWEST_NS = 1_000_000_000;
    /** sd_watchdog_enabled(3) asks for at least two in the time; four leave room for a slow thread. */
    private static final int IN_THE_TIME = 4;

    private static final int UNIX = 1;
    private static final int DATAGRAM_CLOSE_ON_EXEC = 2 | 0x80000;
    /** A manager that is gone must not end us by a signal; one that is slow must not make us wait. */
    private static final int NO_SIGNAL_NO_WAIT = 0x4000 | 0x40;

    private static final int ADDRESS_BYTES = 110;

    private final int descriptor;
    private final byte[] address;
    private boolean ready;

    private ServiceWatchdog(String socket, long intervalNs) {
        super("service-watchdog", intervalNs);
        address = address(socket);
        descriptor = CLibrary.C.socket(UNIX, DATAGRAM_CLOSE_ON_EXEC, 0);
    }

    /** @return empty where no service manager listens */
    public static Optional<ServiceWatchdog> fromEnvironment() {
        return from(System.getenv()).map(watchdog -> {
            watchdog.start();
            return watchdog;
        });
    }

    /** Not yet started. */
    static Optional<ServiceWatchdog> from(Map<String, String> environment) {
        String socket = environment.getOrDefault(SOCKET, "");
        boolean usable = socket.length() > 1 && (socket.startsWith("/") || socket.startsWith("@"));
        return usable
                ? Optional.of(new ServiceWatchdog(socket, intervalNs(environment.get(WATCHDOG_US))))
                : Optional.empty();
    }

    private static long intervalNs(String watchdogUs) {
        if (watchdogUs == null || !watchdogUs.matches("[1-9][0-9]{0,14}")) {
            return SLOWEST_NS;
        }
        return Math.min(SLOWEST_NS, Long.parseLong(watchdogUs) * 1000 / IN_THE_TIME);
    }

    /** struct sockaddr_un, unix(7): the family, then a path with a zero behind it, or a zero and an abstract name. */
    private static byte[] address(String socket) {
        byte[] name = socket.getBytes(StandardCharsets.UTF_8);
        boolean inKernel = name[0] == '@';
        int length = Short.BYTES + name.length + (inKernel ? 0 : 1);
        if (length > ADDRESS_BYTES) {
            throw new IllegalArgumentException(SOCKET + " is longer than a socket's name can be: " + socket);
        }
        if (inKernel) {
            name[0] = 0;
        }
        return ByteBuffer.allocate(length)
                .order(ByteOrder.nativeOrder())
                .putShort((short) UNIX)
                .put(name)
                .array();
    }

    @Override
    void pass() throws IOException {
        send(ready ? "WATCHDOG=1" : "READY=1\nWATCHDOG=1");
        ready = true;
    }

    @Override
    void end() throws IOException {
        send("STOPPING=1");
        CLibrary.C.close(descriptor);
    }

    private void send(String message) throws IOException {
        byte[] bytes = message.getBytes(StandardCharsets.UTF_8);
        try {
            CLibrary.C.sendto(
                    descriptor, bytes, new NativeLong(bytes.length), NO_SIGNAL_NO_WAIT, address, address.length);
        } catch (LastErrorException e) {
            throw new IOException(e);
        }
    }
}
