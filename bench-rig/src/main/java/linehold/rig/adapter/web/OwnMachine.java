package linehold.rig.adapter.web;

import io.javalin.http.Context;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.net.UnknownHostException;
import java.util.List;

/**
 * Whether a request comes from the machine that the rig runs on: the address of the connection decides. What a request says
 * about itself is never believed, but one that says it was passed on comes from elsewhere.
 */
final class OwnMachine {
    private static final List<String> PASSED_ON =
            List.of("Forwarded", "X-Forwarded-For", "X-Forwarded-Host", "X-Real-IP", "Via");

    private OwnMachine() {}

    static boolean sent(Context request) {
        return PASSED_ON.stream().noneMatch(name -> request.header(name) != null)
                && has(request.req().getRemoteAddr());
    }

    /** @param address as numbers */
    static boolean has(String address) {
        try {
            InetAddress from = InetAddress.getByName(address);
            return from.isLoopbackAddress() || NetworkInterface.getByInetAddress(from) != null;
        } catch (UnknownHostException | SocketException e) {
            return false;
        }
    }
}
