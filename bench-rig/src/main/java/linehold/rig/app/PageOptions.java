package linehold.rig.app;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import linehold.rig.adapter.web.PageSettings;
import linehold.simulator.build.InputException;
import picocli.CommandLine.Option;

/** Where the page is served. */
final class PageOptions {
    private static final int TOKEN_BYTES = 16;

    @Option(
            names = "--port",
            paramLabel = "PORT",
            defaultValue = "8230",
            description = "Where the page listens; 0 takes a free port (default: ${DEFAULT-VALUE}).")
    private int port;

    @Option(
            names = "--listen",
            paramLabel = "ADDRESS",
            description = {
                "Serve the page to other machines at this address of ours. Its token is printed once; without it nobody",
                "gets in. Nothing on the way is encrypted: use it on a network that is yours alone."
            })
    private String listen;

    /** Whether other machines may see the page. */
    boolean listens() {
        return listen != null;
    }

    /** @throws InputException where the address or the port cannot be used */
    PageSettings settings() {
        if (port < 0 || port > 65535) {
            throw new InputException("--port: found " + port + ", expected a port from 0 to 65535");
        }
        if (listen == null) {
            return PageSettings.loopback(port);
        }
        try {
            InetAddress address = InetAddress.getByName(listen);
            if (address.isLoopbackAddress()) {
                return PageSettings.loopback(port);
            }
            if (address.isAnyLocalAddress()) {
                throw new InputException("--listen: found '" + listen
                        + "', expected one address of this machine, so that only its own network sees the page");
            }
            return new PageSettings(address, port, secret(), List.of(listen.toLowerCase(Locale.ROOT)));
        } catch (UnknownHostException e) {
            throw new InputException("--listen: found '" + listen + "', expected an address of this machine", e);
        }
    }

    /** A new one at each call, and not to be guessed. */
    static String secret() {
        byte[] bytes = new byte[TOKEN_BYTES];
        new SecureRandom().nextBytes(bytes);
        return HexFormat.of().formatHex(bytes);
    }
}
