package linehold.rig.adapter.web;

import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.zip.GZIPOutputStream;

/** The page's own files and its one library, from the jar. A name is a name: nothing in it can leave its folder. */
final class StaticFiles {
    private static final Map<String, String> TYPES = Map.of(
            "html", "text/html; charset=utf-8",
            "js", "text/javascript; charset=utf-8",
            "css", "text/css; charset=utf-8",
            "svg", "image/svg+xml");
    private static final Map<String, String> LIBRARY = Map.of(
            "uPlot.js", "/META-INF/resources/webjars/uplot/1.6.30/dist/uPlot.esm.js",
            "uPlot.css", "/META-INF/resources/webjars/uplot/1.6.30/dist/uPlot.min.css");

    private StaticFiles() {}

    static void index(Context request) {
        send(request, "/linehold/rig/page/index.html");
    }

    static void page(Context request) {
        String file = request.pathParam("file");
        if (!file.matches("[a-z][a-z-]{0,30}\\.(js|css|svg)")) {
            throw new NotFoundResponse("no such file");
        }
        send(request, "/linehold/rig/page/" + file);
    }

    static void library(Context request) {
        String path = LIBRARY.get(request.pathParam("file"));
        if (path == null) {
            throw new NotFoundResponse("no such file");
        }
        send(request, path);
    }

    private static void send(Context request, String resource) {
        try (InputStream in = StaticFiles.class.getResourceAsStream(resource)) {
            if (in == null) {
                throw new NotFoundResponse("no such file");
            }
            byte[] bytes = in.readAllBytes();
            String accepted = request.header("Accept-Encoding");
            if (accepted != null && accepted.contains("gzip")) {
                bytes = zipped(bytes);
                request.header("Content-Encoding", "gzip");
            }
            request.contentType(TYPES.get(resource.substring(resource.lastIndexOf('.') + 1)))
                    .result(bytes);
        } catch (IOException e) {
            throw new UncheckedIOException(resource, e);
        }
    }

    private static byte[] zipped(byte[] bytes) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (GZIPOutputStream zip = new GZIPOutputStream(out)) {
            zip.write(bytes);
        }
        return out.toByteArray();
    }
}
