package linehold.rig.adapter.web;

import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.zip.GZIPOutputStream;

/**
 * The page's own files and its one library, from the jar, compressed once. A name is a name: nothing in it can leave its
 * folder. A browser asks each time whether its copy is the one of this jar.
 */
final class StaticFiles {
    private static final Map<String, String> TYPES = Map.of(
            "html", "text/html; charset=utf-8",
            "js", "text/javascript; charset=utf-8",
            "css", "text/css; charset=utf-8",
            "svg", "image/svg+xml");
    private static final Map<String, String> LIBRARY = Map.of(
            "uPlot.js", "/META-INF/resources/webjars/uplot/1.6.30/dist/uPlot.esm.js",
            "uPlot.css", "/META-INF/resources/webjars/uplot/1.6.30/dist/uPlot.min.css");
    /** As many as the jar has, whatever is asked for. */
    private static final Map<String, Kept> KEPT = new ConcurrentHashMap<>();

    private record Kept(byte[] plain, byte[] zipped, String tag) {}

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
        Kept kept = KEPT.computeIfAbsent(resource, StaticFiles::read);
        if (kept == null) {
            throw new NotFoundResponse("no such file");
        }
        request.header("ETag", kept.tag);
        request.header("Vary", "Accept-Encoding");
        if (kept.tag.equals(request.header("If-None-Match"))) {
            request.status(304);
            return;
        }
        String accepted = request.header("Accept-Encoding");
        boolean zip = accepted != null && accepted.contains("gzip");
        if (zip) {
            request.header("Content-Encoding", "gzip");
        }
        request.contentType(TYPES.get(resource.substring(resource.lastIndexOf('.') + 1)))
                .result(zip ? kept.zipped : kept.plain);
    }

    /** Null where there is none; what is not there is not kept. */
    private static Kept read(String resource) {
        try (InputStream in = StaticFiles.class.getResourceAsStream(resource)) {
            if (in == null) {
                return null;
            }
            byte[] bytes = in.readAllBytes();
            byte[] hash = MessageDigest.getInstance("SHA-256").digest(bytes);
            return new Kept(bytes, zipped(bytes), '"' + HexFormat.of().formatHex(hash, 0, 8) + '"');
        } catch (IOException e) {
            throw new UncheckedIOException(resource, e);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
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
