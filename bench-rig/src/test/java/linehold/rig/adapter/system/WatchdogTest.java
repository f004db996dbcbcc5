package linehold.rig.adapter.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.sun.jna.Library;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.Channels;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import linehold.simulator.build.InputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Watchdogs hear of completed ticks alone, and of the end only where it is orderly. */
class WatchdogTest {
    @TempDir
    private Path folder;

    @Test
    void shouldWriteToTheDeviceOnlyWhereATickWasCompletedSince() {
        ByteArrayOutputStream written = new ByteArrayOutputStream();
        DeviceWatchdog watchdog = new DeviceWatchdog(Channels.newChannel(written));

        watchdog.round();
        assertThat(written.size()).as("no tick yet").isZero();

        watchdog.feed();
        watchdog.feed();
        watchdog.round();
        watchdog.round();
        assertThat(written.toByteArray())
                .as("two ticks in one interval, none in the next")
                .containsExactly(0);
    }

    @Test
    void shouldStopTheDeviceByItsMagicByteAtAnOrderlyEnd() {
        ByteArrayOutputStream written = new ByteArrayOutputStream();
        DeviceWatchdog watchdog = new DeviceWatchdog(Channels.newChannel(written));

        watchdog.feed();
        watchdog.round();
        watchdog.close();
        assertThat(written.toByteArray()).containsExactly(0, 'V');
    }

    @Test
    void shouldGoOnFeedingAfterADeviceFailedOnce() {
        int[] tries = {0};
        DeviceWatchdog watchdog = new DeviceWatchdog(new java.nio.channels.WritableByteChannel() {
            @Override
            public int write(ByteBuffer bytes) throws IOException {
                if (tries[0]++ == 0) {
                    throw new IOException("input/output error");
                }
                return bytes.remaining();
            }

            @Override
            public boolean isOpen() {
                return true;
            }

            @Override
            public void close() {
                // nothing is held
            }
        });
        for (int i = 0; i < 3; i++) {
            watchdog.feed();
            watchdog.round();
        }
        assertThat(tries[0]).isEqualTo(3);
    }

    @Test
    void shouldNotMakeAPlainFileWhereThereIsNoWatchdog() {
        Path missing = folder.resolve("watchdog");

        assertThatThrownBy(() -> DeviceWatchdog.open(missing))
                .isInstanceOf(InputException.class)
                .hasMessage(
                        missing + ": found no way to open it (NoSuchFileException), expected a watchdog that no other"
                                + " program feeds, systemd's RuntimeWatchdogSec=off");
        assertThat(missing).doesNotExist();
    }

    @Test
    void shouldDoWithoutAServiceManager() {
        assertThat(ServiceWatchdog.from(Map.of())).isEmpty();
        assertThat(ServiceWatchdog.from(Map.of("NOTIFY_SOCKET", "nonsense"))).isEmpty();
    }

    /** A path, and a name in the kernel: sd_notify(3) has both. */
    @ParameterizedTest
    @ValueSource(strings = {"/", "@"})
    void shouldTellTheServiceManagerOfTheFirstTickOfTicksAndOfTheEnd(String kind) {
        assumeTrue(System.getProperty("os.name").equals("Linux"), "unix datagrams are spoken by Linux here");
        String name = kind.equals("/") ? folder.resolve("notify").toString() : "@linehold-test-" + System.nanoTime();
        try (Listener manager = new Listener(name)) {
            ServiceWatchdog watchdog = ServiceWatchdog.from(Map.of("NOTIFY_SOCKET", name, "WATCHDOG_USEC", "1000000"))
                    .orElseThrow();
            watchdog.round();
            watchdog.feed();
            watchdog.round();
            watchdog.feed();
            watchdog.round();
            watchdog.round();
            watchdog.close();

            assertThat(manager.next()).isEqualTo("READY=1\nWATCHDOG=1");
            assertThat(manager.next()).isEqualTo("WATCHDOG=1");
            assertThat(manager.next()).isEqualTo("STOPPING=1");
        }
    }

    @Test
    void shouldNotEndWithTheServiceManager() {
        assumeTrue(System.getProperty("os.name").equals("Linux"), "unix datagrams are spoken by Linux here");
        String gone = folder.resolve("gone").toString();
        ServiceWatchdog watchdog =
                ServiceWatchdog.from(Map.of("NOTIFY_SOCKET", gone)).orElseThrow();

        watchdog.feed();
        watchdog.round();
        watchdog.close();
        assertThat(Files.exists(Path.of(gone))).isFalse();
    }

    /** The other end of sd_notify(3), by the C library's own calls. */
    private static final class Listener implements AutoCloseable {
        interface Sockets extends Library {
            int socket(int domain, int type, int protocol);

            int bind(int descriptor, byte[] address, int length);

            NativeLong recv(int descriptor, byte[] into, NativeLong length, int flags);

            int close(int descriptor);
        }

        private final Sockets sockets = Native.load("c", Sockets.class);
        private final int descriptor = sockets.socket(1, 2, 0);

        Listener(String name) {
            byte[] path = name.getBytes(StandardCharsets.UTF_8);
            boolean inKernel = path[0] == '@';
            if (inKernel) {
                path[0] = 0;
            }
            byte[] address = ByteBuffer.allocate(2 + path.length + (inKernel ? 0 : 1))
                    .order(ByteOrder.nativeOrder())
                    .putShort((short) 1)
                    .put(path)
                    .array();
            assertThat(sockets.bind(descriptor, address, address.length)).isZero();
        }

        String next() {
            byte[] into = new byte[200];
            int doNotWait = 0x40;
            int length = sockets.recv(descriptor, into, new NativeLong(into.length), doNotWait)
                    .intValue();
            return length < 0 ? "nothing" : new String(into, 0, length, StandardCharsets.UTF_8);
        }

        @Override
        public void close() {
            sockets.close(descriptor);
        }
    }
}
