package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.SocketException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.Stream;
import linehold.rig.paper.DriveBook;
import linehold.rig.paper.LogLimits;
import linehold.rig.paper.OwnLogs;
import linehold.simulator.build.BuildFile;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Logs that come in by force, in parts, too long, or as something else: a refusal, and nothing left behind. */
class LogUploadTest {
    private static final int MOST_BYTES = 200_000;

    @TempDir
    private Path folder;

    private final AtomicLong freeBytes = new AtomicLong(Long.MAX_VALUE);
    private PageServer server;
    private PageClient page;

    private Path logs() {
        return folder.resolve("out/logs");
    }

    @BeforeEach
    void start() {
        DriveBook book = new DriveBook(BuildFile.loadNamed("demonstration"));
        OwnLogs logs = new OwnLogs(book, logs(), null, new LogLimits(MOST_BYTES, 1_000_000), freeBytes::get);
        server = new PageServer(PageSettings.loopback(0), Map.of(), null, List.of(new LogRoutes(logs)));
        server.start();
        page = new PageClient(server);
    }

    @AfterEach
    void stop() {
        server.close();
    }

    private List<String> files() throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            return files.filter(Files::isRegularFile)
                    .map(file -> folder.relativize(file).toString())
                    .sorted()
                    .toList();
        }
    }

    private Socket open(String head) throws IOException {
        Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port());
        socket.setSoTimeout(5000);
        send(socket, head);
        return socket;
    }

    private static void send(Socket socket, String text) throws IOException {
        OutputStream out = socket.getOutputStream();
        out.write(text.getBytes(StandardCharsets.ISO_8859_1));
        out.flush();
    }

    private static int status(Socket socket) {
        try {
            InputStream in = socket.getInputStream();
            String first = new String(in.readNBytes(12), StandardCharsets.ISO_8859_1);
            return first.startsWith("HTTP/1.1 ") ? Integer.parseInt(first.substring(9, 12)) : 0;
        } catch (IOException e) {
            return 0;
        }
    }

    private String head(String name, String... headers) {
        String host = "127.0.0.1:" + server.port();
        return "POST /api/logs?name=" + name + " HTTP/1.1\r\nHost: " + host + "\r\nOrigin: http://" + host
                + "\r\nConnection: close\r\n" + String.join("\r\n", headers) + "\r\n\r\n";
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "../../up.csv",
                "/etc/passwd",
                "C:\\\\temp\\\\up.csv",
                "..",
                ".",
                "a\u0000b.csv",
                "con.csv\n.yaml",
                ".hidden",
                "up.map.yaml",
                "-rf.csv",
                "<script>alert(1)</script>.csv",
                "Überfahrt Öl.csv",
                "\u202egnp.csv",
            })
    void shouldTurnEveryNameIntoASafeOneInItsFolder(String name) throws IOException {
        PageClient.Answer answer = page.upload(name, LogTexts.own());
        assertThat(answer.status()).isEqualTo(201);
        assertThat(answer.body().get("file").asString()).matches("[a-z0-9][a-z0-9-]*\\.csv");
        assertThat(files())
                .containsExactly("out/logs/" + answer.body().get("file").asString());
    }

    @Test
    void shouldCutALongNameAndRefuseNone() throws IOException {
        assertThat(page.upload("x".repeat(3000) + ".csv", LogTexts.own()).status())
                .isEqualTo(201);
        assertThat(files()).containsExactly("out/logs/" + "x".repeat(60) + ".csv");
        assertThat(page.upload("  ", LogTexts.own()).status()).isEqualTo(400);
    }

    @Test
    void shouldNeverWriteOverALogThatIsThere() throws IOException {
        page.upload("a.csv", LogTexts.own());
        PageClient.Answer again = page.upload("A.txt", LogTexts.bad());
        assertThat(again.status()).isEqualTo(422);
        assertThat(again.problem()).startsWith("a.csv: found a log of that name");
        assertThat(logs().resolve("a.csv")).hasContent(LogTexts.own());
        assertThat(files()).containsExactly("out/logs/a.csv");
    }

    @Test
    void shouldRefuseALogThatIsTooLongWhetherItSaysSoOrNot() throws IOException {
        try (Socket said = open(head("a.csv", "Content-Length: " + (MOST_BYTES + 1)))) {
            assertThat(status(said)).isEqualTo(413);
        }
        String piece = "1,2,3,4,5\n".repeat(1000);
        try (Socket unsaid = open(head("a.csv", "Transfer-Encoding: chunked"))) {
            for (int i = 0; i < 40; i++) {
                send(unsaid, Integer.toHexString(piece.length()) + "\r\n" + piece + "\r\n");
            }
            send(unsaid, "0\r\n\r\n");
            assertThat(status(unsaid)).isEqualTo(413);
        } catch (SocketException e) {
            // Refused while it still came in: just as well.
            assertThat(e).hasMessageMatching("(?i).*(reset|broken pipe).*");
        }
        assertThat(files()).isEmpty();
    }

    @Test
    void shouldKeepTheSmallLimitOnEveryOtherRoute() {
        page.upload("a.csv", LogTexts.own());
        String tooLong = "x".repeat((1 << 20) + 1);
        assertThat(page.post("/api/logs/a.csv/preview", tooLong).status()).isEqualTo(413);
        assertThat(page.post("/api/logs/a.csv/mapping", tooLong).status()).isEqualTo(413);
    }

    private void awaitNoFiles() throws Exception {
        long endNs = System.nanoTime() + Duration.ofSeconds(20).toNanos();
        while (!files().isEmpty()) {
            assertThat(System.nanoTime()).as("%s", files()).isLessThan(endNs);
            Thread.sleep(20);
        }
    }

    private void awaitFiles(int count) throws Exception {
        long endNs = System.nanoTime() + Duration.ofSeconds(20).toNanos();
        while (files().size() < count) {
            assertThat(System.nanoTime()).as("%s", files()).isLessThan(endNs);
            Thread.sleep(20);
        }
    }

    @Test
    void shouldLeaveNothingOfALogWhoseSenderGoesAway() throws Exception {
        Socket socket = open(head("a.csv", "Content-Length: 150000"));
        send(socket, "time_s,motor_speed_rpm\n" + "1,2\n".repeat(20_000));
        awaitFiles(1);
        socket.close();
        awaitNoFiles();
    }

    @Test
    void shouldTakeTwoAtOnceAndRefuseAThird() throws Exception {
        String log = LogTexts.own();
        Socket first = open(head("same.csv", "Content-Length: " + log.length()));
        Socket second = open(head("same.csv", "Content-Length: " + log.length()));
        awaitFiles(2);
        assertThat(page.upload("third.csv", log).status()).isEqualTo(429);
        send(first, log);
        assertThat(status(first)).isEqualTo(201);
        send(second, log);
        // Both wanted one name: the first has it.
        assertThat(status(second)).isEqualTo(422);
        assertThat(files()).containsExactly("out/logs/same.csv");
        first.close();
        second.close();
    }

    @Test
    void shouldRefuseWhatIsNoTable() throws IOException {
        byte[] noise = new byte[5000];
        new SplittableRandom(9).nextBytes(noise);
        byte[] zip = "PK\u0003\u0004abc,def\n".getBytes(StandardCharsets.ISO_8859_1);
        assertThat(page.upload("noise.csv", noise).status()).isEqualTo(422);
        assertThat(page.upload("zip.csv", zip).problem()).startsWith("zip.csv: is no text (byte 3 is 3)");
        assertThat(page.upload("nothing.csv", "").problem()).startsWith("nothing.csv: is empty");
        assertThat(page.upload("prose.csv", "Dear all,\nthe car, at last, drives.\n")
                        .problem())
                .startsWith("prose.csv: no line that names columns found in the first 200 lines");
        assertThat(page.upload("page.csv", "<!DOCTYPE html><title>x</title>").status())
                .isEqualTo(422);
        assertThat(files()).isEmpty();
    }

    @Test
    void shouldTakeATextInUtf16() {
        byte[] log = ("\ufeff" + LogTexts.own()).getBytes(StandardCharsets.UTF_16LE);
        assertThat(page.upload("wide.csv", log).status()).isEqualTo(201);
        assertThat(page.get("/api/logs")
                        .body()
                        .get("logs")
                        .get(0)
                        .get("problem")
                        .isNull())
                .isTrue();
    }

    @Test
    void shouldKeepRoomForWhatElseIsRecorded() throws IOException {
        freeBytes.set(1_000_000 + LogTexts.own().length() - 1);
        assertThat(page.upload("a.csv", LogTexts.own()).problem())
                .contains("found too little room")
                .contains("expected 1 MB to stay free");
        // Nothing said beforehand, and the medium fills on the way.
        freeBytes.set(1_000_000 + 70_000);
        try (Socket socket = open(head("a.csv", "Transfer-Encoding: chunked"))) {
            String head = "time_s,motor_speed_rpm\n";
            String piece = "1,2\n".repeat(17_000);
            send(socket, Integer.toHexString(head.length() + piece.length()) + "\r\n" + head + piece + "\r\n");
            freeBytes.set(1_000_000);
            send(socket, Integer.toHexString(piece.length()) + "\r\n" + piece + "\r\n0\r\n\r\n");
            assertThat(status(socket)).isEqualTo(422);
        }
        assertThat(files()).isEmpty();
    }

    @Test
    void shouldRefuseWhoeverIsNotThePage() throws IOException {
        String log = LogTexts.own();
        String head = head("a.csv", "Content-Length: " + log.length());
        for (String bad : List.of(
                head.replaceAll("Origin: [^\r]*\r\n", ""),
                head.replaceAll("Origin: [^\r]*", "Origin: http://evil.example"),
                head.replaceAll("Origin: [^\r]*", "Origin: null"),
                head.replaceAll("Host: [^\r]*", "Host: evil.example"))) {
            try (Socket socket = open(bad)) {
                assertThat(status(socket)).as(bad).isIn(400, 403);
            }
        }
        assertThat(files()).isEmpty();
    }

    @Test
    void shouldClearAwayWhatAnEndedProgramLeftButNotWhatAnotherOneWrites() throws IOException {
        stop();
        Files.createDirectories(logs());
        Files.writeString(logs().resolve(".1-1.part"), "half a log");
        Path held = Files.writeString(logs().resolve(".2-1.part"), "half a log");
        Files.writeString(logs().resolve("Tuesday.csv"), LogTexts.own());
        try (FileChannel channel = FileChannel.open(held, StandardOpenOption.WRITE)) {
            channel.lock();
            start();
            assertThat(files()).containsExactly("out/logs/.2-1.part", "out/logs/Tuesday.csv");
            assertThat(page.get("/api/logs").body().get("logs").size()).isEqualTo(1);
        }
    }
}
