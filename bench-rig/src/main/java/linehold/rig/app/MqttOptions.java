package linehold.rig.app;

import java.nio.file.Path;
import java.util.Optional;
import linehold.rig.adapter.mqtt.MqttSettings;
import linehold.simulator.build.InputException;
import picocli.CommandLine.Option;

/** Telemetry, for a command that has a rig. Without {@code --mqtt} there is none. */
final class MqttOptions {
    private static final String PREFIX = "linehold/rig";

    @Option(
            names = "--mqtt",
            paramLabel = "URL",
            description = "Publish to this broker, tcp://host:1883 or ssl://host:8883 (default: to none).")
    private String url;

    @Option(names = "--mqtt-user", paramLabel = "NAME", description = "User at the broker.")
    private String user;

    @Option(
            names = "--mqtt-password-file",
            paramLabel = "FILE",
            description = "File that holds the user's password in one line.")
    private Path passwordFile;

    @Option(
            names = "--mqtt-ca-file",
            paramLabel = "FILE",
            description = "Certificates that the broker's must be signed by, PEM (default: those that the JDK trusts).")
    private Path caFile;

    @Option(
            names = "--mqtt-topic",
            paramLabel = "PREFIX",
            description = "Before every topic; no two rigs at a broker may have the same (default: " + PREFIX + ").")
    private String prefix;

    /**
     * Empty where no telemetry is wanted.
     *
     * @throws InputException where an option cannot be used
     */
    Optional<MqttSettings> settings() {
        if (url == null) {
            if (user != null || passwordFile != null || caFile != null || prefix != null) {
                throw new InputException("--mqtt: found options of telemetry without it, expected a broker such as"
                        + " --mqtt tcp://host:1883");
            }
            return Optional.empty();
        }
        return Optional.of(MqttSettings.of(url, user, passwordFile, caFile, prefix == null ? PREFIX : prefix));
    }
}
