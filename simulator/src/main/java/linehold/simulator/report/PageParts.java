package linehold.simulator.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** What every page of ours has: head with its style sheet, cautions, and how far the result reaches. */
final class PageParts {
    private PageParts() {}

    static void head(Markup html, String title) {
        html.raw("<!DOCTYPE html>\n").open("html", "lang", "en").line();
        html.open("head").line();
        html.empty("meta", "charset", "utf-8").line();
        html.empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1")
                .line();
        html.empty("meta", "name", "color-scheme", "content", "light dark").line();
        html.element("title", title).line();
        html.open("style").line().raw(styleSheet()).close().line();
        html.close().line();
    }

    static void cautions(Markup html) {
        list(html, "cautions", "Caution: before this becomes a car", Cautions.WORK);
    }

    static void limits(Markup html, List<String> limits) {
        list(html, "limits", "What this result is, and is not", limits);
    }

    private static void list(Markup html, String id, String title, List<String> sentences) {
        html.open("section", "class", "caution", "aria-labelledby", id);
        html.element("h2", title, "id", id);
        html.open("ul");
        for (String sentence : sentences) {
            html.element("li", sentence);
        }
        html.close().close().line();
    }

    private static String styleSheet() {
        try (InputStream in = PageParts.class.getResourceAsStream("report.css")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException("report.css", e);
        }
    }
}
