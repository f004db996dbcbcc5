package linehold.rig.adapter.web;

import io.javalin.http.Context;
import io.javalin.http.ForbiddenResponse;
import io.javalin.http.UnauthorizedResponse;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Map;
import java.util.function.IntSupplier;

/**
 * What every request must pass: the host it names is ours (another one is a page that turned its own name to this machine),
 * its origin, if any, is this page, and the token is there where one is needed. What could change something needs the
 * origin to be named.
 */
final class Gate {
    static final String COOKIE = "linehold-token";

    private static final Map<String, String> HEADERS = Map.of(
            "Content-Security-Policy",
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self';"
                    + " font-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
            "X-Content-Type-Options",
            "nosniff",
            "Referrer-Policy",
            "no-referrer",
            "Cross-Origin-Resource-Policy",
            "same-origin",
            "Cross-Origin-Opener-Policy",
            "same-origin",
            "Cache-Control",
            "no-cache");

    private final PageSettings settings;
    private final IntSupplier port;

    Gate(PageSettings settings, IntSupplier port) {
        this.settings = settings;
        this.port = port;
    }

    /** @throws ForbiddenResponse or UnauthorizedResponse where the request may not pass */
    void check(Context request) {
        HEADERS.forEach(request::header);
        checkHost(request);
        boolean reading =
                request.method().name().equals("GET") || request.method().name().equals("HEAD");
        checkOrigin(request, !reading);
        checkToken(request);
    }

    /** The same for a socket, which a browser always opens with an origin. */
    void checkSocket(Context upgrade) {
        checkHost(upgrade);
        checkOrigin(upgrade, true);
        checkToken(upgrade);
    }

    private void checkHost(Context request) {
        if (!settings.allows(request.header("Host"), port.getAsInt())) {
            throw new ForbiddenResponse("this page is not served under that name");
        }
    }

    private void checkOrigin(Context request, boolean needed) {
        String origin = request.header("Origin");
        if (origin == null ? needed : !origin.equals("http://" + request.header("Host"))) {
            throw new ForbiddenResponse("only this page itself may ask that");
        }
    }

    /** The page's own address carries the token once; the browser then keeps it as a cookie. */
    private void checkToken(Context request) {
        if (settings.token() == null || shows(request.cookie(COOKIE))) {
            return;
        }
        if (request.path().equals("/") && shows(request.queryParam("token"))) {
            request.header("Set-Cookie", COOKIE + "=" + settings.token() + "; Path=/; HttpOnly; SameSite=Strict");
            return;
        }
        throw new UnauthorizedResponse("open the address with the token that the rig printed when it started");
    }

    /** Takes as long for a wrong token as for the right one. */
    private boolean shows(String shown) {
        return shown != null
                && MessageDigest.isEqual(
                        shown.getBytes(StandardCharsets.UTF_8), settings.token().getBytes(StandardCharsets.UTF_8));
    }
}
