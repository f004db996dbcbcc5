package linehold.simulator.report;

import java.util.ArrayDeque;
import java.util.Deque;

/**
 * Writes HTML and SVG that is also well-formed XML: elements close in order, every text and attribute is escaped.
 * Attributes come as name, value, name, value.
 */
final class Markup {
    private final StringBuilder out = new StringBuilder();
    private final Deque<String> open = new ArrayDeque<>();

    Markup open(String tag, String... attributes) {
        start(tag, attributes);
        out.append('>');
        open.push(tag);
        return this;
    }

    Markup close() {
        out.append("</").append(open.pop()).append('>');
        return this;
    }

    /** An element that holds nothing but a text. */
    Markup element(String tag, String text, String... attributes) {
        open(tag, attributes);
        text(text);
        return close();
    }

    /** An element without content: HTML's void elements and SVG shapes. */
    Markup empty(String tag, String... attributes) {
        start(tag, attributes);
        out.append("/>");
        return this;
    }

    Markup text(String text) {
        escape(text);
        return this;
    }

    Markup line() {
        out.append('\n');
        return this;
    }

    /** Text of our own that is already markup: the doctype, the style sheet. */
    Markup raw(String markup) {
        out.append(markup);
        return this;
    }

    @Override
    public String toString() {
        if (!open.isEmpty()) {
            throw new IllegalStateException("still open: " + open);
        }
        return out.toString();
    }

    private void start(String tag, String... attributes) {
        if (attributes.length % 2 != 0) {
            throw new IllegalArgumentException("attribute without value in <" + tag + ">");
        }
        out.append('<').append(tag);
        for (int i = 0; i < attributes.length; i += 2) {
            out.append(' ').append(attributes[i]).append("=\"");
            escape(attributes[i + 1]);
            out.append('"');
        }
    }

    private void escape(String text) {
        text.codePoints().forEach(c -> {
            switch (c) {
                case '&' -> out.append("&amp;");
                case '<' -> out.append("&lt;");
                case '>' -> out.append("&gt;");
                case '"' -> out.append("&quot;");
                case '\'' -> out.append("&#39;");
                default -> out.appendCodePoint(allowedInXml(c) ? c : 0xFFFD);
            }
        });
    }

    /** Char production of XML 1.0 (fifth edition, section 2.2), less the C1 controls that HTML refuses. */
    private static boolean allowedInXml(int c) {
        return c == '\t'
                || c == '\n'
                || c >= 0x20 && c < 0x7F
                || c >= 0xA0 && c <= 0xD7FF
                || c >= 0xE000 && c <= 0xFFFD
                || c >= 0x10000;
    }
}
