package linehold.rig.adapter.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.BadRequestResponse;
import io.javalin.http.Context;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import linehold.controller.calibration.Key;
import linehold.rig.paper.SavedWindow;
import linehold.rig.paper.TriedWindow;
import linehold.rig.paper.WindowDesk;
import linehold.rig.paper.WindowSaver;
import linehold.rig.paper.WindowSearch;
import linehold.simulator.build.Display;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.report.VerdictJson;
import linehold.simulator.report.WindowJson;
import linehold.simulator.report.WindowSentences;
import linehold.simulator.window.Window;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;

/** The window view: the map, the verdict of a window that is tried, and saving one. */
public final class WindowRoutes implements PageServer.Routes {
    private final WindowDesk desk;
    private final WindowSaver saver;

    /**
     * @param source the build file's text
     * @param folder where what is saved goes
     */
    public WindowRoutes(WindowDesk desk, String source, Path folder) {
        this.desk = desk;
        saver = new WindowSaver(desk, source, folder);
    }

    @Override
    public void addTo(JavalinConfig config) {
        config.routes.get("/api/window", this::window);
        config.routes.get("/api/window/handles", this::handles);
        config.routes.post("/api/window/verdict", this::verdict);
        config.routes.post("/api/window/save", this::save);
    }

    @Override
    public void close() {
        desk.close();
    }

    /** What a handle may do, SI. */
    record Handle(String key, String quantity, double least, double present) {}

    private void handles(Context request) {
        List<Handle> handles = new ArrayList<>();
        for (Key key : TriedWindow.KEYS) {
            handles.add(new Handle(
                    key.yamlName(),
                    key.quantity().name().toLowerCase(java.util.Locale.ROOT),
                    key.least(),
                    desk.build().calibration().get(key)));
        }
        PageServer.json(request, handles);
    }

    /** The map as soon as it is there, and the words beside it as soon as they are there in the units asked for. */
    private void window(Context request) {
        UnitSystem units = units(request);
        WindowSearch asked = desk.search(units);
        Map<String, Object> answer = new LinkedHashMap<>();
        answer.put("ready", asked.window() != null);
        answer.put("problem", asked.trouble());
        answer.put("state", asked.state());
        Window window = asked.window() != null ? asked.window() : desk.anyWindow();
        if (window != null) {
            answer.put("window", PageServer.JSON.readTree(WindowJson.toBytes(window)));
            answer.put("rule_rad_per_s", Window.RULE_RAD_PER_S);
        }
        if (asked.window() != null) {
            answer.put("words", words(window, new Display(units)));
        }
        PageServer.json(request, answer);
    }

    private static List<String> words(Window window, Display display) {
        List<String> words = new ArrayList<>();
        if (window.pair() != null) {
            words.add(WindowSentences.pair(window, display));
        }
        window.proofs().forEach(proof -> words.add(WindowSentences.proof(window, proof)));
        words.addAll(WindowSentences.notes(window, display));
        return words;
    }

    private void verdict(Context request) {
        byte[] verdict =
                VerdictJson.toBytes(desk.verdict(PageServer.asker(request), tried(body(request)), units(request)));
        request.contentType("application/json").result(verdict);
    }

    private void save(Context request) {
        JsonNode body = body(request);
        SavedWindow saved = saver.save(tried(body), body.path("name").asString(""));
        Map<String, Object> answer = new LinkedHashMap<>();
        answer.put("file", saved.file().toString());
        answer.put("proof", saved.proof().toString());
        answer.put("sha256", saved.sha256());
        answer.put("calibration", String.format(java.util.Locale.ROOT, "%08x", saved.calibrationChecksum()));
        answer.put("held", saved.held());
        PageServer.json(request, answer);
    }

    private static UnitSystem units(Context request) {
        return "us".equals(request.queryParam("units")) ? UnitSystem.US : UnitSystem.METRIC;
    }

    private static JsonNode body(Context request) {
        try {
            JsonNode body = PageServer.JSON.readTree(request.bodyAsBytes());
            if (body != null && body.isObject()) {
                return body;
            }
        } catch (JacksonException e) {
            // Told below: what is wrong with it helps nobody who uses the page.
        }
        throw new BadRequestResponse("expected a window as the page sends it");
    }

    private static TriedWindow tried(JsonNode body) {
        Map<Key, String> typed = new EnumMap<>(Key.class);
        for (Key key : TriedWindow.KEYS) {
            JsonNode value = body.get(key.yamlName());
            if (value != null && value.isString()) {
                typed.put(key, value.stringValue());
            } else if (value != null) {
                throw new BadRequestResponse(key.yamlName() + ": expected text with a unit");
            }
        }
        return new TriedWindow(typed, body.path("speed-alone").asBoolean(false));
    }
}
