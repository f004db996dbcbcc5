package linehold.rig.adapter.web;

import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublisher;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import tools.jackson.databind.JsonNode;

/** Asks a page what its own scripts would ask. */
final class PageClient {
    private final HttpClient client = HttpClient.newHttpClient();
    private final String address;

    record Answer(int status, JsonNode body) {
        String problem() {
            return body.path("problem").asString("");
        }
    }

    PageClient(PageServer server) {
        address = server.address().replaceAll("/$", "");
    }

    Answer get(String path) {
        return send("GET", path, BodyPublishers.noBody());
    }

    Answer delete(String path) {
        return send("DELETE", path, BodyPublishers.noBody());
    }

    Answer post(String path, Object body) {
        return send("POST", path, BodyPublishers.ofByteArray(PageServer.JSON.writeValueAsBytes(body)));
    }

    Answer upload(String name, byte[] log) {
        String path = "/api/logs?name=" + URLEncoder.encode(name, StandardCharsets.UTF_8);
        return send("POST", path, BodyPublishers.ofByteArray(log));
    }

    Answer upload(String name, String log) {
        return upload(name, log.getBytes(StandardCharsets.UTF_8));
    }

    private Answer send(String method, String path, BodyPublisher body) {
        try {
            HttpRequest request = HttpRequest.newBuilder(URI.create(address + path))
                    .header("Origin", address)
                    .method(method, body)
                    .build();
            HttpResponse<String> answer = client.send(request, BodyHandlers.ofString());
            boolean json = answer.body().startsWith("{") || answer.body().startsWith("[");
            return new Answer(answer.statusCode(), PageServer.JSON.readTree(json ? answer.body() : "{}"));
        } catch (IOException e) {
            throw new IllegalStateException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }
}
