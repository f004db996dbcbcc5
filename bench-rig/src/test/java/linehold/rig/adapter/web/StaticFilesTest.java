package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The page's own files, as a browser gets them. */
class StaticFilesTest {
    private static final int MOST_BYTES = 300_000;
    private static final HttpClient CLIENT = HttpClient.newHttpClient();
    private static PageServer server;

    @BeforeAll
    static void start() {
        server = new PageServer(PageSettings.loopback(0), Map.of(), null, List.of());
        server.start();
    }

    @AfterAll
    static void stop() {
        server.close();
    }

    private static HttpResponse<byte[]> get(String path, String... headers) throws Exception {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + server.port() + path));
        if (headers.length > 0) {
            request.headers(headers);
        }
        return CLIENT.send(request.build(), BodyHandlers.ofByteArray());
    }

    /** All that the jar has for the page, and its library. */
    private static List<String> all() throws Exception {
        Path folder = Path.of(PageServer.class
                        .getResource("/linehold/rig/page/index.html")
                        .toURI())
                .getParent();
        List<String> paths = new ArrayList<>(List.of("/", "/lib/uPlot.js", "/lib/uPlot.css"));
        try (Stream<Path> files = Files.list(folder)) {
            files.map(file -> file.getFileName().toString())
                    .filter(name -> !name.equals("index.html"))
                    .sorted()
                    .forEach(name -> paths.add("/page/" + name));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return paths;
    }

    @Test
    void shouldSendAllItsOwnFilesAndTheLibraryInLessThan300KilobytesCompressed() throws Exception {
        int bytes = 0;
        for (String path : all()) {
            HttpResponse<byte[]> answer = get(path, "Accept-Encoding", "gzip");
            assertThat(answer.statusCode()).as(path).isEqualTo(200);
            assertThat(answer.headers().firstValue("Content-Encoding")).as(path).contains("gzip");
            bytes += answer.body().length;
        }
        assertThat(bytes).isBetween(20_000, MOST_BYTES);
    }

    @Test
    void shouldSendAFileAgainOnlyWhenItIsAnother() throws Exception {
        for (String path : all()) {
            HttpResponse<byte[]> first = get(path);
            String tag = first.headers().firstValue("ETag").orElseThrow();
            assertThat(first.headers().firstValue("Cache-Control")).as(path).contains("no-cache");
            HttpResponse<byte[]> again = get(path, "If-None-Match", tag);
            assertThat(again.statusCode()).as(path).isEqualTo(304);
            assertThat(again.body()).isEmpty();
            assertThat(get(path, "If-None-Match", "\"0123456789abcdef\"").body())
                    .as(path)
                    .isEqualTo(first.body());
        }
    }

    @Test
    void shouldAskForNothingThatIsNotThereAndForNoOtherHost() throws Exception {
        List<String> paths = all();
        for (String path : paths) {
            String text = new String(get(path).body(), StandardCharsets.UTF_8);
            if (path.startsWith("/lib/")) {
                continue;
            }
            assertThat(text).as(path).doesNotContain("https://", "//cdn");
            Pattern.compile("\"(/(?:page|lib)/[^\"]+)\"|from \"\\./([^\"]+)\"|import\\(\"\\./([^\"]+)\"\\)")
                    .matcher(text)
                    .results()
                    .map(found -> found.group(1) != null
                            ? found.group(1)
                            : "/page/" + (found.group(2) != null ? found.group(2) : found.group(3)))
                    .forEach(wanted ->
                            assertThat(paths).as("asked for by %s", path).contains(wanted));
        }
    }
}
