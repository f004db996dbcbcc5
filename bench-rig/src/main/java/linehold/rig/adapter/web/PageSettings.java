package linehold.rig.adapter.web;

import java.net.InetAddress;
import java.util.List;
import java.util.Locale;

/**
 * Where the page listens, and who may look.
 *
 * @param address loopback unless the person asked for another
 * @param port 0 takes any free one
 * @param token what a browser must show; null on loopback
 * @param names further names by which browsers may reach this address
 */
public record PageSettings(InetAddress address, int port, String token, List<String> names) {
    /** Loopback, no token. */
    public static PageSettings loopback(int port) {
        return new PageSettings(InetAddress.getLoopbackAddress(), port, null, List.of());
    }

    boolean allows(String host, int boundPort) {
        if (host == null) {
            return false;
        }
        String suffix = ":" + boundPort;
        if (!host.endsWith(suffix)) {
            return false;
        }
        String name = host.substring(0, host.length() - suffix.length()).toLowerCase(Locale.ROOT);
        if (address.isLoopbackAddress()) {
            return List.of("127.0.0.1", "localhost", "[::1]").contains(name);
        }
        return name.equals(hostName(address)) || names.contains(name);
    }

    /** As it stands in an address line. */
    static String hostName(InetAddress address) {
        String text = address.getHostAddress();
        return text.contains(":") ? "[" + text.replaceAll("%.*", "") + "]" : text;
    }
}
