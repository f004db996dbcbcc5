package linehold.rig.adapter.mqtt;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** Debian's broker as a child process at a free port; it keeps sessions and retained messages over a restart. */
final class Mosquitto implements AutoCloseable {
    static final String USER = "car-1";
    static final String PASSWORD = "line holds 4 bar";

    final int port = EmbeddedBroker.freePort();

    private final Path program;
    private final Path folder;
    private final Path log;
    private Process process;

    /**
     * @param folder for its files
     * @param certificates null for a connection in the clear
     */
    Mosquitto(Path program, Path folder, TestCertificates certificates) throws IOException, InterruptedException {
        this.program = program;
        this.folder = folder;
        log = folder.resolve("mosquitto.log");
        Path passwords = Files.writeString(folder.resolve("passwords"), USER + ":" + PASSWORD + "\n");
        Command.run(List.of("mosquitto_passwd", "-U", passwords.toString()), folder);
        StringBuilder config = new StringBuilder();
        // Started by root it would become another user, who may not read this folder.
        config.append("user ").append(System.getProperty("user.name")).append('\n');
        config.append("listener ").append(port).append(" 127.0.0.1\n");
        config.append("allow_anonymous false\n");
        config.append("password_file ").append(passwords).append('\n');
        config.append("persistence true\npersistence_location ").append(folder).append("/\n");
        config.append("max_queued_messages 0\n");
        config.append("log_type all\nlog_dest file ").append(log).append('\n');
        if (certificates != null) {
            config.append("certfile ").append(certificates.certificate()).append('\n');
            config.append("keyfile ").append(certificates.key()).append('\n');
        }
        Files.writeString(folder.resolve("mosquitto.conf"), config);
    }

    /** Where it is installed. */
    static Optional<Path> program() {
        return Stream.of(
                        "/usr/sbin/mosquitto",
                        "/usr/local/sbin/mosquitto",
                        "/usr/bin/mosquitto",
                        "/usr/local/bin/mosquitto")
                .map(Path::of)
                .filter(Files::isExecutable)
                .findFirst();
    }

    void start() throws IOException, InterruptedException {
        process = new ProcessBuilder(
                        program.toString(),
                        "-c",
                        folder.resolve("mosquitto.conf").toString())
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("mosquitto.out").toFile())
                .start();
        Await.until("mosquitto listens; see " + folder, this::listens);
    }

    private boolean listens() {
        try (Socket socket = new Socket()) {
            socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 100);
            return true;
        } catch (IOException e) {
            return false;
        }
    }

    /** As a service manager ends it: it keeps what it holds. */
    void stop() throws InterruptedException {
        process.destroy();
        if (!process.waitFor(20, TimeUnit.SECONDS)) {
            process.destroyForcibly().waitFor();
        }
    }

    String log() throws IOException {
        return Files.exists(log) ? Files.readString(log) : "";
    }

    @Override
    public void close() throws InterruptedException {
        if (process != null) {
            stop();
        }
    }
}
