package linehold.rig.adapter.mqtt;

import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.net.ssl.SSLSocketFactory;
import linehold.simulator.build.InputException;

/** Where to publish, checked: whatever is wrong with it is said before the loop starts. */
public final class MqttSettings {
    /** Ports registered for MQTT and MQTT over TLS by IANA. */
    private static final int PORT = 1883;

    private static final int TLS_PORT = 8883;
    private static final String WANTED = "expected tcp://host:1883 or ssl://host:8883";
    /** The protocol's own limit of a password, bytes (MQTT 3.1.1, 3.1.3.5). */
    private static final int LONGEST_PASSWORD = 65_535;
    /** Leaves room for the names below it in the protocol's 65,535 bytes, and for the eye. */
    private static final int LONGEST_PREFIX = 200;

    final String uri;
    final String user;
    final char[] password;
    /** Null where the connection is not encrypted. */
    final SSLSocketFactory tls;

    final String prefix;

    private MqttSettings(String uri, String user, char[] password, SSLSocketFactory tls, String prefix) {
        this.uri = uri;
        this.user = user;
        this.password = password;
        this.tls = tls;
        this.prefix = prefix;
    }

    /**
     * @param url of the broker: {@code tcp://host:1883} or {@code ssl://host:8883}
     * @param user null for none
     * @param passwordFile holds the password in one line; null for none
     * @param caFile certificates that the broker's must be signed by, PEM or DER; null for those that the JDK trusts
     * @param prefix of every topic; no two rigs at a broker may have the same
     * @throws InputException where one of them cannot be used
     */
    public static MqttSettings of(String url, String user, Path passwordFile, Path caFile, String prefix) {
        URI broker = broker(url);
        boolean encrypted = broker.getScheme().equals("ssl");
        if (user != null && user.isEmpty()) {
            throw new InputException("--mqtt-user: found nothing, expected a name");
        }
        if (passwordFile != null && user == null) {
            throw new InputException(
                    "--mqtt-password-file: found no --mqtt-user beside it, which MQTT 3.1.1 wants with a password");
        }
        if (caFile != null && !encrypted) {
            throw new InputException(
                    "--mqtt-ca-file: found with a tcp:// address, expected ssl://, which alone has" + " certificates");
        }
        char[] password = passwordFile == null ? null : password(passwordFile);
        return new MqttSettings(
                broker.toString(), user, password, encrypted ? Trust.of(caFile) : null, checkedPrefix(prefix));
    }

    private static URI broker(String url) {
        if (url.contains("@")) {
            // Not repeated: it may hold a password.
            throw new InputException(
                    "--mqtt: found an address with '@', expected no user or password in it: give them with --mqtt-user and"
                            + " --mqtt-password-file");
        }
        try {
            URI uri = new URI(url);
            boolean encrypted = "ssl".equals(uri.getScheme());
            boolean known = encrypted || "tcp".equals(uri.getScheme());
            boolean bare = uri.getPath() != null
                    && uri.getPath().isEmpty()
                    && uri.getQuery() == null
                    && uri.getFragment() == null;
            if (known && bare && uri.getHost() != null && uri.getPort() != 0 && uri.getPort() <= 65_535) {
                int port = uri.getPort() > 0 ? uri.getPort() : encrypted ? TLS_PORT : PORT;
                return new URI(uri.getScheme(), null, uri.getHost(), port, null, null, null);
            }
        } catch (URISyntaxException e) {
            throw new InputException("--mqtt: found '" + url + "', " + WANTED, e);
        }
        throw new InputException("--mqtt: found '" + url + "', " + WANTED);
    }

    private static char[] password(Path file) {
        byte[] bytes;
        try (InputStream in = Files.newInputStream(file)) {
            bytes = in.readNBytes(LONGEST_PASSWORD + 2);
        } catch (IOException e) {
            throw new InputException(
                    "--mqtt-password-file: " + file + ": cannot be read (" + FileTrouble.of(e) + ")", e);
        }
        String text;
        try {
            text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
        } catch (CharacterCodingException e) {
            throw new InputException("--mqtt-password-file: " + file + ": found bytes that are no UTF-8 text", e);
        }
        String line = text.endsWith("\r\n")
                ? text.substring(0, text.length() - 2)
                : text.endsWith("\n") ? text.substring(0, text.length() - 1) : text;
        if (line.isEmpty() || line.indexOf('\n') >= 0 || bytes.length > LONGEST_PASSWORD + 1) {
            throw new InputException("--mqtt-password-file: " + file + ": found "
                    + (line.isEmpty() ? "no password" : "more than one line") + ", expected the password in one line");
        }
        return line.toCharArray();
    }

    private static String checkedPrefix(String prefix) {
        boolean usable = !prefix.isEmpty()
                && prefix.getBytes(StandardCharsets.UTF_8).length <= LONGEST_PREFIX
                && !prefix.startsWith("/")
                && !prefix.endsWith("/")
                && !prefix.startsWith("$")
                && prefix.chars().noneMatch(c -> c == '#' || c == '+' || Character.isISOControl(c));
        if (!usable) {
            throw new InputException("--mqtt-topic: found '" + prefix + "', expected at most " + LONGEST_PREFIX
                    + " bytes such as 'workshop/car-1', without '#', '+', a '$' before it or a '/' at either end");
        }
        return prefix;
    }

    /** What a person should know of these settings, a sentence each. */
    public List<String> warnings() {
        return password != null && tls == null
                ? List.of("--mqtt: the password goes to " + uri
                        + " unencrypted; use ssl:// where others share the network")
                : List.of();
    }

    /** The same for every start of a rig, so that a broker that still holds the old connection ends it. */
    String clientId() {
        return prefix.replace('/', '-');
    }

    /** Without the password. */
    @Override
    public String toString() {
        return "MQTT at " + uri + " below " + prefix + (user == null ? "" : " as " + user);
    }
}
